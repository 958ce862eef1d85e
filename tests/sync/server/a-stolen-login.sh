# A login that was stolen, without the key of the device: it can add, and nobody takes it over.
firm; opening truck W1; quietly meet truck; quietly meet office; cp truck.book eve.book
opening truck W2; cp truck.book later.book; mkdir o
python3 $FORGED/rewrite.py later.book set truck/3 room '"cellar"'
python3 $FORGED/segment.py later.book truck 3 o truck
python3 $PUT truck 1 o/truck/*
answer 3 'refused      truck/3 to 3' meet office; grep -q 'is not what its device signed' said
not lists office cellar
# Until the administrator shuts it out, in the midst of its connection, too.
admin "UPDATE mistfold.device SET login = NULL WHERE device = 'truck'"
[ "$(sql truck 'SELECT count(*) FROM mistfold.entry')" = 0 ]
answer 3 'this login is no device of a firm' meet truck
refused 'row-level security' truck "INSERT INTO mistfold.content VALUES (1, sha256('a'), 'truck', 'a')"
