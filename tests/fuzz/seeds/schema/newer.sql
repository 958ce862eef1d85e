PRAGMA user_version=9999; PRAGMA application_id=0;
