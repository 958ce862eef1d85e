# The administrator takes away a piece of a chain, its entries, the bytes of a photo, its end.
firm; opening truck W1; photo truck; quietly meet truck
"$PG_BIN/createdb" -h "$PG" -U admin -T firm kept
again() { "$PG_BIN/dropdb" -h "$PG" -U admin --force firm; "$PG_BIN/createdb" -h "$PG" -U admin -T kept firm; }
off='SET session_replication_role = replica;'
# The piece, its entries, the bytes of a photo, the end of the chain.
admin "$off DELETE FROM mistfold.segment WHERE device = 'truck' AND to_seq > 1"
answer 1 'does not hand it out' meet office; again
admin "$off DELETE FROM mistfold.entry WHERE device = 'truck' AND seq = 2"
answer 3 'damaged      truck/2 to 3' meet office; again
admin "$off DELETE FROM mistfold.content"
answer 1 'the bytes of attachment' meet office; again
admin "$off UPDATE mistfold.content SET bytes = 'x'" 2>/dev/null || admin "$off ALTER TABLE mistfold.content DROP CONSTRAINT content_hash; UPDATE mistfold.content SET bytes = 'x'"
answer 3 'are not those of its hash' meet office; again
quietly meet office; opening office W8; quietly meet office
admin "$off DELETE FROM mistfold.segment WHERE device = 'truck' AND to_seq > 1; UPDATE mistfold.head SET seq = 1, hash = (SELECT hash FROM mistfold.entry WHERE device = 'truck' AND seq = 1) WHERE device = 'truck'"
answer 1 'entry truck/3 has not arrived' meet paul
answer 1 'gone' meet office
"$PG_BIN/dropdb" -h "$PG" -U admin --force kept
