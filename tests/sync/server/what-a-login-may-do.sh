# What a login may do: its own chain, forward.
firm; opening truck W1; quietly meet truck; photo paul; quietly meet paul
for t in entry content segment head device firm version; do
refused 'permission denied' truck "DELETE FROM mistfold.$t"
refused 'permission denied' truck "TRUNCATE mistfold.$t"; done
refused 'permission denied' truck "UPDATE mistfold.entry SET body = '{}'"
refused 'permission denied' truck 'UPDATE mistfold.head SET seq = 1'
refused 'permission denied' truck 'UPDATE mistfold.device SET relay = true'
refused 'permission denied' truck "INSERT INTO mistfold.head VALUES (1, 'x', 1, '')"
refused 'permission denied' truck 'SELECT * FROM mistfold.reader'
refused 'permission denied' truck 'SET ROLE mistfold_owner'
refused 'must be owner' truck 'ALTER TABLE mistfold.entry DISABLE TRIGGER ALL'
refused 'row-level security' truck "INSERT INTO mistfold.entry SELECT firm, device, seq + 1, at, who, kind, job, body, hash FROM mistfold.entry WHERE device = 'paul'"
refused 'row-level security' truck "INSERT INTO mistfold.entry SELECT firm, 'phone', 1, at, who, kind, job, body, hash FROM mistfold.entry LIMIT 1"
refused 'row-level security' office "INSERT INTO mistfold.entry SELECT firm, device, seq + 9, at, who, kind, job, body, hash FROM mistfold.entry WHERE device = 'truck'"
refused 'does not follow' truck "INSERT INTO mistfold.entry SELECT firm, device, seq + 1, at, who, kind, job, body, hash FROM mistfold.entry WHERE device = 'truck' AND seq = 2"
refused 'the entry before truck/9 is not here' truck "INSERT INTO mistfold.entry SELECT firm, device, 9, at, who, kind, job, body, hash FROM mistfold.entry WHERE device = 'truck' AND seq = 2"
refused 'content_hash' truck "INSERT INTO mistfold.content VALUES (1, sha256('a'), 'truck', 'b')"
refused 'row-level security' truck "INSERT INTO mistfold.content VALUES (1, sha256('a'), 'paul', 'a')"
refused 'row-level security' truck "INSERT INTO mistfold.segment SELECT firm, device, from_seq, to_seq, 'paul', sha256('x'), size, first_line, last_line FROM mistfold.segment WHERE device = 'truck'"
refused 'permission denied' stranger 'SELECT * FROM mistfold.entry'
