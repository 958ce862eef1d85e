# The views show what was logged, as it was corrected last, of the firm of the login that asks.
v() { sql desk "SELECT $1 FROM mistfold_office.$2"; }
firm; [ "$(v 'job, state' job)" = 'J-7|opened' ]
[ "$(v "count(*)" "to_do WHERE what = 'nobody is assigned'")" = 1 ]
quietly M truck instrument add --serial X-1 --film 1.02 --cal-low 0.8 --cal-high 1.2
opening truck W1
quietly M truck component add J-7 --id W1.sash --opening W1 --type sash --side interior --substrate wood
quietly M truck test log J-7 --number 1 --instrument X-1 --operator rosa --component W1.sash --substrate wood \
    --result 2.5 --on 2026-08-12 --purpose paint
quietly M truck crew assign J-7 --person rosa --duty renovator --on 2026-09-14
quietly M truck job complete J-7 --on 2026-09-17
quietly M truck certificate add --holder rosa --discipline renovator --number R-1 --issuer X --issued 2024-01-05 --expires 2099-01-05
quietly meet truck; quietly meet office; quietly meet paul
[ "$(v 'job, state, completed, renovators' job)" = 'J-7|completed|2026-09-17|rosa' ]
[ "$(v 'component, readings, highest_mg_cm2' component)" = 'W1.sash|1|2.500' ]
[ "$(v 'holder, number, days_left > 0' certificate)" = 'rosa|R-1|t' ]
[ "$(v "count(*)" "to_do WHERE what = 'nobody is assigned'")" = 0 ]
# Corrected, corrected twice without knowing of each other, withdrawn.
w=$(v entry "in_force WHERE kind = 'opening'") c=$(v entry "in_force WHERE kind = 'completion'")
quietly M truck entry withdraw $c --reason "it goes on"
quietly M truck entry correct $w --set room=kitchen --reason misread
quietly meet truck
room() { sql desk "SELECT body ->> 'room', contradicted FROM mistfold_office.in_force WHERE entry = '$w'"; }
[ "$(v state job)" = begun ] || [ "$(v state job)" = opened ]; [ "$(room)" = 'kitchen|f' ]
quietly M paul entry correct $w --set room=bath --reason misread
answer 1 '1 contradictions' meet paul
[ "$(room | cut -d'|' -f2)" = t ]
sql desk 'SELECT what FROM mistfold_office.to_do' | grep -q "two devices corrected $w differently"
# Nothing but the views, and only of one's own firm; a device has no need of them.
refused 'permission denied' desk 'SELECT * FROM mistfold.entry'
refused 'permission denied' truck 'SELECT * FROM mistfold_office.job'
admin "UPDATE mistfold.reader SET firm = 2"
for view in job component reading to_do certificate in_force entry; do [ "$(v 'count(*)' $view)" = 0 ]; done
# What is no day and no number spoils no list.
admin "UPDATE mistfold.reader SET firm = 1; SET session_replication_role = replica; UPDATE mistfold.entry SET body =
 replace(replace(body, '2099-01-05', '2099-02-31'), '2500', '\"much\"')"
[ "$(v "count(*), max(coalesce(days_left, -1))" certificate)" = '1|-1' ]
[ "$(v 'component, readings, highest_mg_cm2' component)" = 'W1.sash|1|' ]
