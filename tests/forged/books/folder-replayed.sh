# Old files are put into the folder again, under the names of others: nothing comes in twice.
#= 0
#> taken over   entries: 0, attachments: 0
meet_first
truck_logs olga
quietly meet truck
quietly meet demo
mkdir share/eve
cp share/truck/* share/office/* share/eve
meet demo
