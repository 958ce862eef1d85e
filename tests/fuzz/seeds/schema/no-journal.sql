PRAGMA foreign_keys=OFF; DROP TABLE entry;
