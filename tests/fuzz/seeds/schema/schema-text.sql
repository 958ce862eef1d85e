UPDATE sqlite_schema SET sql='CREATE TABLE entry(device' WHERE name='entry';
