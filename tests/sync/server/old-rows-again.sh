# What stands there twice, or under another number, comes in once.
firm; opening truck W1; quietly meet truck; quietly meet office; n=$(head_of office); mkdir o
python3 $FORGED/segment.py truck.book truck 1 o truck; python3 $PUT truck 1 o/truck/*
python3 $FORGED/segment.py truck.book truck 2 o office; not python3 $PUT office 1 o/office/* >said
grep -q 'row-level security' said
answer 0 'taken over   entries: 0' meet office; [ "$(head_of office)" = "$n" ]
