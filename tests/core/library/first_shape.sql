-- A library of the first shape, as the bot of that time wrote it. Never changed: later shapes must still read it.
PRAGMA application_id = 1400138873;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'steelyard','1 records, versions, names, settings','2026-11-25 14:13:20.023014+00:00');
CREATE TABLE asked (id TEXT PRIMARY KEY, text TEXT NOT NULL, until TEXT NOT NULL) WITHOUT ROWID;
INSERT INTO "asked" VALUES('gFckLnYgPi8VPxOzvxXdfg','/batch fills:1 x 201 g, 2 x 202 g, 3 x 203 g, 4 x 204 g, 5 x 205 g, 6 x 206 g, 7 x 207 g, 8 x 208 g, 9 x 209 g, 10 x 210 g, 11 x 211 g, 12 x 212 g, 13 x 213 g, 14 x 214 g load:8 %','2999-01-31T00:00:00+00:00');
CREATE TABLE gram (
    shelf INTEGER NOT NULL,
    gram TEXT NOT NULL,
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    PRIMARY KEY (shelf, gram, record)
) WITHOUT ROWID;
INSERT INTO "gram" VALUES(1,' oi',1);
INSERT INTO "gram" VALUES(1,' ro',1);
INSERT INTO "gram" VALUES(1,'e o',1);
INSERT INTO "gram" VALUES(1,'il ',1);
INSERT INTO "gram" VALUES(1,'oil',1);
INSERT INTO "gram" VALUES(1,'ose',1);
INSERT INTO "gram" VALUES(1,'ros',1);
INSERT INTO "gram" VALUES(1,'se ',1);
INSERT INTO "gram" VALUES(2,' am',2);
INSERT INTO "gram" VALUES(2,' ti',2);
INSERT INTO "gram" VALUES(2,'amb',2);
INSERT INTO "gram" VALUES(2,'ber',2);
INSERT INTO "gram" VALUES(2,'er ',2);
INSERT INTO "gram" VALUES(2,'in ',2);
INSERT INTO "gram" VALUES(2,'mbe',2);
INSERT INTO "gram" VALUES(2,'r t',2);
INSERT INTO "gram" VALUES(2,'tin',2);
INSERT INTO "gram" VALUES(3,' pi',3);
INSERT INTO "gram" VALUES(3,' wi',3);
INSERT INTO "gram" VALUES(3,'er ',3);
INSERT INTO "gram" VALUES(3,'ine',3);
INSERT INTO "gram" VALUES(3,'int',3);
INSERT INTO "gram" VALUES(3,'ne ',3);
INSERT INTO "gram" VALUES(3,'nte',3);
INSERT INTO "gram" VALUES(3,'pin',3);
INSERT INTO "gram" VALUES(3,'r p',3);
INSERT INTO "gram" VALUES(3,'ter',3);
INSERT INTO "gram" VALUES(3,'win',3);
CREATE TABLE leaving (space TEXT PRIMARY KEY, after TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE measurement (
    id INTEGER PRIMARY KEY,
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    density TEXT NOT NULL,
    spread TEXT,
    mass TEXT,
    volume TEXT,
    warmth TEXT,
    method TEXT NOT NULL DEFAULT '',
    source TEXT NOT NULL DEFAULT '',
    at TEXT NOT NULL,
    user TEXT NOT NULL,
    by_name TEXT NOT NULL,
    deleted_at TEXT,
    deleted_by TEXT,
    UNIQUE (record, number)
);
INSERT INTO "measurement" VALUES(1,1,1,'0.93 g/ml',NULL,NULL,NULL,'20 degC','','','2026-03-01T12:00:00+00:00','7','Ada',NULL,NULL);
INSERT INTO "measurement" VALUES(2,1,2,'0.935 g/ml','0.002729812264607220201064948330713969516062','93.5 g','100 ml',NULL,'graduated cylinder, class A','','2026-03-02T12:00:00+00:00','7','Ada',NULL,NULL);
INSERT INTO "measurement" VALUES(3,1,3,'0.39 g/ml',NULL,NULL,NULL,NULL,'','','2026-03-03T12:00:00+00:00','7','Ada','2026-03-03T12:00:00+00:00','7');
CREATE TABLE record (
    id INTEGER PRIMARY KEY,
    shelf INTEGER NOT NULL REFERENCES shelf (id) ON DELETE CASCADE,
    reader TEXT NOT NULL DEFAULT '',
    folded TEXT NOT NULL,
    name TEXT NOT NULL,
    version INTEGER NOT NULL DEFAULT 0,
    made_by TEXT NOT NULL,
    deleted_at TEXT,
    deleted_by TEXT
);
INSERT INTO "record" VALUES(1,1,'','rose oil','rose oil',1,'7',NULL,NULL);
INSERT INTO "record" VALUES(2,2,'','amber tin','amber tin',1,'7',NULL,NULL);
INSERT INTO "record" VALUES(3,3,'','winter pine','winter pine',2,'7',NULL,NULL);
CREATE TABLE seen (once TEXT PRIMARY KEY, at TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE setting (scope TEXT NOT NULL, key TEXT NOT NULL, value TEXT NOT NULL, PRIMARY KEY (scope, key))
    WITHOUT ROWID;
INSERT INTO "setting" VALUES('guild:100','basis','total');
CREATE TABLE shelf (id INTEGER PRIMARY KEY, space TEXT NOT NULL, kind TEXT NOT NULL, UNIQUE (space, kind));
INSERT INTO "shelf" VALUES(1,'guild:100','material');
INSERT INTO "shelf" VALUES(2,'guild:100','vessel');
INSERT INTO "shelf" VALUES(3,'guild:100','formula');
CREATE TABLE trial (
    id INTEGER PRIMARY KEY,
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    version INTEGER NOT NULL,
    cure_days INTEGER,
    observed TEXT NOT NULL DEFAULT '',
    verdict TEXT NOT NULL DEFAULT '',
    at TEXT NOT NULL,
    user TEXT NOT NULL,
    by_name TEXT NOT NULL,
    deleted_at TEXT,
    deleted_by TEXT,
    UNIQUE (record, number)
);
INSERT INTO "trial" VALUES(1,3,1,2,NULL,'full melt pool','works','2026-03-09T12:00:00+00:00','7','Ada',NULL,NULL);
CREATE TABLE version (
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    at TEXT NOT NULL,
    user TEXT NOT NULL,
    by_name TEXT NOT NULL,
    reason TEXT NOT NULL DEFAULT '',
    data TEXT NOT NULL,
    PRIMARY KEY (record, number)
) WITHOUT ROWID;
INSERT INTO "version" VALUES(1,1,'2026-03-01T12:00:00+00:00','7','Ada','first measurement','{}');
INSERT INTO "version" VALUES(2,1,'2026-03-02T12:00:00+00:00','7','Ada','','{"room": ["250", "ml"], "weight": ["180", "g"]}');
INSERT INTO "version" VALUES(3,1,'2026-03-04T12:00:00+00:00','7','Ada','','{"additives": [], "basis": "wax", "fragrances": [], "load": ["8", "percent"], "notes": "", "vessel": "", "waxes": [["soy", "70"], ["coconut", "30"]]}');
INSERT INTO "version" VALUES(3,2,'2026-03-05T12:00:00+00:00','7','Ada','scent was too faint','{"additives": [], "basis": "wax", "fragrances": [], "load": ["9", "percent"], "notes": "", "vessel": "", "waxes": [["soy", "70"], ["coconut", "30"]]}');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE UNIQUE INDEX record_by_name ON record (shelf, reader, folded) WHERE deleted_at IS NULL;
CREATE INDEX record_deleted ON record (deleted_at) WHERE deleted_at IS NOT NULL;
CREATE INDEX record_by_maker ON record (made_by);
CREATE INDEX version_by_user ON version (user);
CREATE INDEX measurement_by_user ON measurement (user);
CREATE INDEX trial_by_user ON trial (user);
CREATE INDEX gram_of ON gram (record);
COMMIT;
