# The same in the firm's own book, with every hash made anew: the check of the book names it.
#= 1
#> NO inspection
#> entry van/1: it settles corrections of office/279 that never stood side by side
M entry correct office/279 --set color=blue --reason misread >said
M entry correct office/279 --set color=green --reason misread >said
rewrite demo.book add-as van correction '{"kind":"reading","reason":"r","replaces":"office/420","settles":"office/419","target":"office/279"}' J-1926
quietly M book rebuild
M gate J-1926 inspection --on 2026-09-25 >said && echo "YES inspection" || echo "NO inspection"
M book check
