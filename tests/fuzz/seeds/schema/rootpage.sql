UPDATE sqlite_schema SET rootpage=3 WHERE name='entry';
