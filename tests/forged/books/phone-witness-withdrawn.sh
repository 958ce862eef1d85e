# A phone's file takes back a head that the office noted.
#= 3
#> a.entries, entry phone/1: it is the firm's, not the job's
quietly T book new --no-key --device truck
quietly T person add --id teo --name 'Teo Muestra'
quietly M book witness $(T book head | tail -1) --from truck
phone a.entries J-1926/- phone rosa correction '{"kind":"witness","reason":"r","replaces":"office/419","target":"office/419"}'
M entry import a.entries
