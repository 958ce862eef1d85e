# The administrator changes what an entry says, and what hangs on it.
firm; opening truck W1; quietly meet truck; quietly meet office
admin "ALTER TABLE mistfold.entry DISABLE TRIGGER ALL; UPDATE mistfold.entry SET body = replace(body, 'hall', 'bath') WHERE device = 'truck' AND seq = 2"
# Who has not got it yet, and who looks at all of it.
answer 3 'damaged      truck/2 to 2' meet paul; not lists paul bath
answer 3 'damaged      truck/2 to 2' M office sync "$(place office)" --status
answer 3 'docs/server.md' M office sync "$(place office)" --status
answer 0 'taken over   entries: 0' meet office
answer 1 'trigger CREATE TRIGGER entry_in_chain' M office sync "$(place office)" --check
# A text that is none, a hash that is too short, another number, no row at all.
row="WHERE device = 'truck' AND seq = 2"
admin "ALTER TABLE mistfold.entry ALTER job DROP NOT NULL, ALTER hash DROP NOT NULL, DROP CONSTRAINT entry_hash_check; UPDATE mistfold.entry SET body = replace(body, 'bath', 'hall'), job = NULL $row"
answer 3 'damaged      truck/2 to 2' meet paul
for hash in 'substr(hash, 1, 31)' NULL; do
    admin "UPDATE mistfold.entry SET job = 'J-7', hash = $hash $row"
    answer 3 'damaged      truck/2 to 2' meet paul
done
admin "DELETE FROM mistfold.entry $row"
answer 3 'damaged      truck/2 to 2' meet paul
answer 0 'W1' M office opening list J-7
