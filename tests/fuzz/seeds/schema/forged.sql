DROP TRIGGER entry_no_update; UPDATE entry SET body=json_set(body,'$.name','Other') WHERE kind='person';
