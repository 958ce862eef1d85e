# ... makes its hash anew, and the text around it.
firm; opening truck W1; quietly meet truck; cp truck.book eve.book; mkdir o
python3 $FORGED/rewrite.py eve.book set truck/2 room '"bath"'
python3 $FORGED/segment.py eve.book truck 2 o truck
admin "SET session_replication_role = replica; DELETE FROM mistfold.segment WHERE device = 'truck' AND to_seq = 2; DELETE FROM mistfold.entry WHERE device = 'truck' AND seq = 2"
python3 $PUT admin 1 o/truck/*
answer 3 'is not what its device signed' meet office; not lists office bath
answer 3 'refused      truck/2 to 2; entry truck/2 says something else' M truck sync "$(place truck)" --status
