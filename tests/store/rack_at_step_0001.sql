BEGIN TRANSACTION;
CREATE TABLE rack_action (
	number INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	kind TEXT NOT NULL, 
	at TEXT NOT NULL, 
	person TEXT DEFAULT '' NOT NULL, 
	job TEXT DEFAULT '' NOT NULL, 
	note TEXT DEFAULT '' NOT NULL, 
	undoes INTEGER, 
	UNIQUE (undoes), 
	FOREIGN KEY(undoes) REFERENCES rack_action (number)
);
INSERT INTO "rack_action" VALUES(1,'receive','2026-09-30T08:00:00+00:00','Ida','','',NULL);
INSERT INTO "rack_action" VALUES(2,'reserve','2026-10-02T08:00:00+00:00','Ida','Glaze room','',NULL);
INSERT INTO "rack_action" VALUES(3,'cut','2026-10-03T08:00:00+00:00','Bo','','wrong one',NULL);
INSERT INTO "rack_action" VALUES(4,'undo','2026-10-03T08:01:00+00:00','Bo','','wrong one',3);
INSERT INTO "rack_action" VALUES(5,'cut','2026-10-04T08:00:00+00:00','Ida','Glaze room','',NULL);
CREATE TABLE rack_change (
	action INTEGER NOT NULL, 
	place INTEGER NOT NULL, 
	code TEXT NOT NULL, 
	"before" TEXT, 
	"after" TEXT, 
	PRIMARY KEY (action, place), 
	FOREIGN KEY(action) REFERENCES rack_action (number)
);
INSERT INTO "rack_change" VALUES(1,0,'AAAAAAAV',NULL,'{"batch": "B7", "code": "AAAAAAAV", "currency": "DKK", "form": "sheet", "grain": "along", "last_action": 1, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 2", "price": "412.50", "received": "2026-09-30", "reserved_for": "", "state": "free", "thickness": 1790, "width": 125000}');
INSERT INTO "rack_change" VALUES(1,1,'BBBBBBB8',NULL,'{"batch": "B7", "code": "BBBBBBB8", "currency": "", "form": "sheet", "grain": "along", "last_action": 1, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 3", "price": null, "received": "2026-09-30", "reserved_for": "", "state": "free", "thickness": 1790, "width": 125000}');
INSERT INTO "rack_change" VALUES(2,0,'AAAAAAAV','{"batch": "B7", "code": "AAAAAAAV", "currency": "DKK", "form": "sheet", "grain": "along", "last_action": 1, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 2", "price": "412.50", "received": "2026-09-30", "reserved_for": "", "state": "free", "thickness": 1790, "width": 125000}','{"batch": "B7", "code": "AAAAAAAV", "currency": "DKK", "form": "sheet", "grain": "along", "last_action": 2, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 2", "price": "412.50", "received": "2026-09-30", "reserved_for": "Glaze room", "state": "reserved", "thickness": 1790, "width": 125000}');
INSERT INTO "rack_change" VALUES(3,0,'BBBBBBB8','{"batch": "B7", "code": "BBBBBBB8", "currency": "", "form": "sheet", "grain": "along", "last_action": 1, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 3", "price": null, "received": "2026-09-30", "reserved_for": "", "state": "free", "thickness": 1790, "width": 125000}','{"batch": "B7", "code": "BBBBBBB8", "currency": "", "form": "sheet", "grain": "along", "last_action": 3, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 3", "price": null, "received": "2026-09-30", "reserved_for": "", "state": "cut", "thickness": 1790, "width": 125000}');
INSERT INTO "rack_change" VALUES(4,0,'BBBBBBB8','{"batch": "B7", "code": "BBBBBBB8", "currency": "", "form": "sheet", "grain": "along", "last_action": 3, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 3", "price": null, "received": "2026-09-30", "reserved_for": "", "state": "cut", "thickness": 1790, "width": 125000}','{"batch": "B7", "code": "BBBBBBB8", "currency": "", "form": "sheet", "grain": "along", "last_action": 1, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 3", "price": null, "received": "2026-09-30", "reserved_for": "", "state": "free", "thickness": 1790, "width": 125000}');
INSERT INTO "rack_change" VALUES(5,0,'AAAAAAAV','{"batch": "B7", "code": "AAAAAAAV", "currency": "DKK", "form": "sheet", "grain": "along", "last_action": 2, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 2", "price": "412.50", "received": "2026-09-30", "reserved_for": "Glaze room", "state": "reserved", "thickness": 1790, "width": 125000}','{"batch": "B7", "code": "AAAAAAAV", "currency": "DKK", "form": "sheet", "grain": "along", "last_action": 5, "length": 250000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "", "place": "bay 2", "price": "412.50", "received": "2026-09-30", "reserved_for": "", "state": "cut", "thickness": 1790, "width": 125000}');
INSERT INTO "rack_change" VALUES(5,1,'CCCCCCCM',NULL,'{"batch": "B7", "code": "CCCCCCCM", "currency": "DKK", "form": "offcut", "grain": "along", "last_action": 5, "length": 100000, "material": "birch-ply-18", "moisture": 0.083, "moisture_on": "2026-10-01", "notes": "", "parent": "AAAAAAAV", "place": "bay 2", "price": "66.00", "received": "2026-10-04", "reserved_for": "", "state": "free", "thickness": 1790, "width": 50000}');
CREATE TABLE rack_item (
	code TEXT NOT NULL, 
	form TEXT NOT NULL, 
	material TEXT NOT NULL, 
	length BIGINT NOT NULL CHECK (length > 0), 
	width BIGINT NOT NULL CHECK (width > 0), 
	thickness BIGINT, 
	batch TEXT DEFAULT '' NOT NULL, 
	grain TEXT DEFAULT 'along' NOT NULL, 
	moisture DOUBLE, 
	moisture_on TEXT, 
	place TEXT DEFAULT '' NOT NULL, 
	price TEXT, 
	currency TEXT DEFAULT '' NOT NULL, 
	received TEXT, 
	notes TEXT DEFAULT '' NOT NULL, 
	state TEXT DEFAULT 'free' NOT NULL, 
	reserved_for TEXT DEFAULT '' NOT NULL, 
	parent TEXT DEFAULT '' NOT NULL, 
	last_action INTEGER NOT NULL, 
	PRIMARY KEY (code), 
	CHECK (state IN ('free', 'reserved', 'cut', 'spoiled')), 
	CHECK ((state = 'reserved') = (reserved_for <> '')), 
	FOREIGN KEY(last_action) REFERENCES rack_action (number)
);
INSERT INTO "rack_item" VALUES('AAAAAAAV','sheet','birch-ply-18',250000,125000,1790,'B7','along',0.083,'2026-10-01','bay 2','412.50','DKK','2026-09-30','','cut','','',5);
INSERT INTO "rack_item" VALUES('BBBBBBB8','sheet','birch-ply-18',250000,125000,1790,'B7','along',0.083,'2026-10-01','bay 3',NULL,'','2026-09-30','','free','','',1);
INSERT INTO "rack_item" VALUES('CCCCCCCM','offcut','birch-ply-18',100000,50000,1790,'B7','along',0.083,'2026-10-01','bay 2','66.00','DKK','2026-10-04','','free','','AAAAAAAV',5);
CREATE TABLE rack_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT rack_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "rack_version" VALUES('0001');
CREATE INDEX rack_change_code ON rack_change (code);
CREATE INDEX rack_item_use ON rack_item (material, state);
CREATE INDEX rack_item_parent ON rack_item (parent);
COMMIT;
