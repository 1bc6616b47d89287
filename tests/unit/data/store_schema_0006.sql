-- A store as revision 0006 wrote it. Released: never changed again, every later version opens it.

PRAGMA application_id = 1400140400;

CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL,
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);

CREATE TABLE items (
	id VARCHAR(32) NOT NULL,
	kind VARCHAR(16) NOT NULL,
	name VARCHAR(80) NOT NULL,
	file VARCHAR(100) NOT NULL,
	file_key VARCHAR(200) NOT NULL,
	created VARCHAR(32) NOT NULL,
	updated VARCHAR(32) NOT NULL,
	current INTEGER NOT NULL,
	archived BOOLEAN NOT NULL,
	sound BOOLEAN NOT NULL,
	trouble TEXT,
	material VARCHAR(200),
	bar VARCHAR(200),
	quantity INTEGER,
	sought TEXT NOT NULL,
	CONSTRAINT pk_items PRIMARY KEY (id),
	CONSTRAINT ck_items_kind CHECK (kind IN ('job', 'press', 'tooling', 'lot', 'rack', 'crib', 'rates')),
	CONSTRAINT ck_items_current CHECK (current >= 1),
	CONSTRAINT uq_items_file_key UNIQUE (file_key)
);

CREATE INDEX ix_items_listed ON items (kind, archived, updated);

CREATE TABLE versions (
	item VARCHAR(32) NOT NULL,
	number INTEGER NOT NULL,
	text TEXT NOT NULL,
	saved_at VARCHAR(32) NOT NULL,
	note TEXT NOT NULL,
	sha256 VARCHAR(64) NOT NULL,
	sound BOOLEAN NOT NULL,
	trouble TEXT,
	restores INTEGER,
	CONSTRAINT pk_versions PRIMARY KEY (item, number),
	CONSTRAINT ck_versions_number CHECK (number >= 1),
	CONSTRAINT fk_versions_item FOREIGN KEY(item) REFERENCES items (id)
);

CREATE TABLE drafts (
	item VARCHAR(32) NOT NULL,
	who VARCHAR(64) NOT NULL,
	kind VARCHAR(16) NOT NULL,
	base INTEGER,
	fields JSON NOT NULL,
	updated VARCHAR(32) NOT NULL,
	CONSTRAINT pk_drafts PRIMARY KEY (item, who),
	CONSTRAINT ck_drafts_kind CHECK (kind IN ('job', 'press', 'tooling', 'lot', 'rack', 'crib', 'rates'))
);

CREATE TABLE searches (
	id VARCHAR(32) NOT NULL,
	item VARCHAR(32) NOT NULL,
	state VARCHAR(16) NOT NULL,
	asked VARCHAR(64) NOT NULL,
	begun VARCHAR(32) NOT NULL,
	said TEXT NOT NULL,
	result TEXT NOT NULL,
	CONSTRAINT pk_searches PRIMARY KEY (id),
	CONSTRAINT ck_searches_state CHECK (state IN ('running', 'done', 'stopped', 'failed')),
	CONSTRAINT fk_searches_item FOREIGN KEY(item) REFERENCES items (id)
);

CREATE INDEX ix_searches_item ON searches (item, begun);

CREATE TABLE meta (
	"key" VARCHAR(64) NOT NULL,
	value TEXT NOT NULL,
	CONSTRAINT pk_meta PRIMARY KEY ("key")
);

CREATE TABLE log (
	line INTEGER NOT NULL,
	revision INTEGER NOT NULL,
	item VARCHAR(32) NOT NULL,
	version INTEGER NOT NULL,
	part INTEGER NOT NULL,
	bend INTEGER NOT NULL,
	lot VARCHAR(200) NOT NULL,
	press VARCHAR(200) NOT NULL,
	tooling VARCHAR(200) NOT NULL,
	mounting INTEGER NOT NULL,
	typed JSON NOT NULL,
	figures JSON NOT NULL,
	counted BOOLEAN NOT NULL,
	why TEXT NOT NULL,
	kept_at VARCHAR(32) NOT NULL,
	CONSTRAINT pk_log PRIMARY KEY (line, revision),
	CONSTRAINT ck_log_line CHECK (line >= 1),
	CONSTRAINT ck_log_revision CHECK (revision >= 1),
	CONSTRAINT ck_log_part CHECK (part >= 1),
	CONSTRAINT ck_log_bend CHECK (bend >= 1),
	CONSTRAINT fk_log_item FOREIGN KEY(item, version) REFERENCES versions (item, number)
);

CREATE INDEX ix_log_item ON log (item, part, bend);

CREATE TABLE seal (
	of_table VARCHAR(64) NOT NULL,
	rows INTEGER NOT NULL,
	sha256 VARCHAR(64) NOT NULL,
	CONSTRAINT pk_seal PRIMARY KEY (of_table)
);

INSERT INTO alembic_version VALUES ('0006');

-- rows: up to here it is an empty store
INSERT INTO items VALUES ('aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 'job', 'Fender hanger', 'Fender hanger.toml',
 'fender hanger.toml', '2026-11-25T06:00:00.000000+00:00', '2026-11-25T07:30:00.000000+00:00', 2, 0, 1, NULL,
 'S235JR', 'flat 6 x 40 mm', 6, 'fender hanger');
INSERT INTO items VALUES ('bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb', 'press', 'Old press', 'old press.toml',
 'old press.toml', '2026-11-25T06:00:00.000000+00:00', '2026-11-25T06:00:00.000000+00:00', 1, 1, 1, NULL,
 NULL, NULL, NULL, 'old press');

INSERT INTO versions VALUES ('aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 1, 'format = 1
# bent lying
[part]
name = "fender hanger"
quantity = 4
bar = "flat 6 x 40 mm"
material = "S235JR"
shape = ["70 mm", "up 90", "120 mm"]
', '2026-11-25T06:00:00.000000+00:00', 'first',
 'bf829dd56afcfb351de273fc04e75d284c76a4ee64c48e36044b0ffc65ec6576', 1, NULL, NULL);
INSERT INTO versions VALUES ('aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 2, 'format = 1
# bent lying
[part]
name = "fender hanger"
quantity = 6
bar = "flat 6 x 40 mm"
material = "S235JR"
shape = ["70 mm", "up 90", "120 mm"]
', '2026-11-25T07:30:00.000000+00:00', '',
 '99795a6ba1c178a1cf1d8a86234ff3723a71ccc36621695f66133ef66c9c81ce', 1, NULL, NULL);
INSERT INTO versions VALUES ('bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb', 1, 'format = 1
[press]
bore = "63 mm"
relief = "140 bar"
', '2026-11-25T06:00:00.000000+00:00', '',
 '9b0ebca7b7ad4b042b0218d036af59cd637b1fcc8a3cb637f33301da6aa2cb28', 1, NULL, NULL);

INSERT INTO drafts VALUES ('cccccccccccccccccccccccccccccccc', 'kitchen', 'job', NULL, '{"bar": "flat 1/4 x"}', '2026-11-25T07:30:00.000000+00:00');

INSERT INTO meta VALUES ('greeted', 'yes');

INSERT INTO searches VALUES ('dddddddddddddddddddddddddddddddd', 'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 'done', '00',
 '2026-11-25T07:40:00.000000+00:00', '', '{}');

INSERT INTO log VALUES (1, 1, 'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 2, 1, 1, 'job aaaa', 'Big press.toml', 'nose', 1,
 '{"angle": "44"}', '{"free": 0.7679448708775056}', 1, '', '2026-11-25T08:00:00.000000+00:00');
INSERT INTO log VALUES (1, 2, 'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 2, 1, 1, 'job aaaa', 'Big press.toml', 'nose', 1,
 '{"angle": "45"}', '{"free": 0.7853981633974483}', 1, 'misread', '2026-11-25T08:05:00.000000+00:00');
