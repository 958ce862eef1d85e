DROP TRIGGER entry_no_update; UPDATE entry SET body=zeroblob(900000) WHERE seq=3; INSERT INTO content SELECT 'x', zeroblob(500000);
