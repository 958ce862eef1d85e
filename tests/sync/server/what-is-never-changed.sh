# What the server refuses of an administrator, too, until they take its triggers away.
firm; photo truck; quietly meet truck
for t in entry content segment; do
refused 'is never changed' admin "DELETE FROM mistfold.$t"
refused 'is never changed' admin "UPDATE mistfold.$t SET firm = 2"
refused 'is never changed' admin "TRUNCATE mistfold.$t CASCADE"; done
refused 'never goes back' admin 'UPDATE mistfold.head SET seq = seq - 1'
refused 'is never changed' admin 'DELETE FROM mistfold.head'
