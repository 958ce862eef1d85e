# Another firm on the same server.
firm; opening truck W1; photo truck; quietly meet truck
for t in entry content segment head; do
[ "$(sql other "SELECT count(*) FROM mistfold.$t")" = 0 ]; done
[ "$(sql other 'SELECT name FROM mistfold.firm')" = 'Other Example' ]
[ "$(sql other 'SELECT device FROM mistfold.device')" = other ]
refused 'row-level security' other "INSERT INTO mistfold.entry (firm, device, seq, at, who, kind, job, body, hash) VALUES (1, 'other', 1, '', '', '', '', '{}', sha256(''))"
refused 'row-level security' other "INSERT INTO mistfold.content VALUES (1, sha256('a'), 'other', 'a')"
quietly M other book new --device other; quietly M other firm add --name O --address A
quietly M other person add --id rosa --name 'Rosa Example'
answer 0 'taken over   entries: 0' meet other; quietly meet office
[ "$(admin 'SELECT count(DISTINCT firm) FROM mistfold.entry')" = 2 ]
answer 0 'taken over   entries: 0, attachments: 0' meet office
