DROP TRIGGER entry_no_update; UPDATE entry SET body=x'00ff00', seq='x', hash=NULL, device=1.5 WHERE seq=2;
