# The administrator changes what an entry says, and what hangs on it.
firm; opening truck W1; quietly meet truck; quietly meet office
admin "ALTER TABLE mistfold.entry DISABLE TRIGGER ALL; UPDATE mistfold.entry SET body = replace(body, 'hall', 'bath') WHERE device = 'truck' AND seq = 2"
# Who has not got it yet, and who looks at all of it.
answer 3 'damaged      truck/2 to 2' meet paul; not lists paul bath
answer 3 'damaged      truck/2 to 2' M office sync "$(place office)" --status
answer 3 'docs/server.md' M office sync "$(place office)" --status
answer 0 'taken over   entries: 0' meet office
answer 1 'trigger CREATE TRIGGER entry_in_chain' M office sync "$(place office)" --check
