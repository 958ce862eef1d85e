-- A store of mistfold, version 1: where the devices of firms meet (docs/server.md).
-- An administrator runs it once, in a database of its own, in PostgreSQL 15 or later:
--   mistfold sync --init | psql --no-psqlrc --set ON_ERROR_STOP=1 DATABASE
-- It keeps what devices logged and judges nothing: every device makes each hash anew.
BEGIN;

DO $$
BEGIN
  IF current_setting('server_version_num')::integer < 150000 THEN
    RAISE EXCEPTION 'this is PostgreSQL %; a store needs 15 or later', current_setting('server_version');
  END IF;
  IF current_setting('server_encoding') <> 'UTF8' THEN
    RAISE EXCEPTION 'this database is in %; a store needs UTF8', current_setting('server_encoding');
  END IF;
  IF to_regnamespace('mistfold') IS NOT NULL THEN
    RAISE EXCEPTION 'a store is here already; ask what it has: mistfold sync PLACE --check';
  END IF;
END $$;

-- ---- roles: they belong to the whole server, and stand from the second database on ------------
DO $$
DECLARE role text;
BEGIN
  FOREACH role IN ARRAY ARRAY['mistfold_owner', 'mistfold_device', 'mistfold_office'] LOOP
    IF to_regrole(role) IS NULL THEN
      EXECUTE format('CREATE ROLE %I NOLOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOBYPASSRLS', role);
    END IF;
  END LOOP;
  EXECUTE format('GRANT CONNECT, TEMPORARY ON DATABASE %I TO mistfold_device', current_database());
  EXECUTE format('GRANT CONNECT ON DATABASE %I TO mistfold_office', current_database());
END $$;

CREATE SCHEMA mistfold AUTHORIZATION mistfold_owner;
CREATE SCHEMA mistfold_office AUTHORIZATION mistfold_owner;
SET LOCAL ROLE mistfold_owner;

-- ---- what is kept --------------------------------------------------------------------------
CREATE TABLE mistfold.version (version integer NOT NULL);
INSERT INTO mistfold.version VALUES (1);

CREATE TABLE mistfold.firm (
  firm integer GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  name text NOT NULL UNIQUE);

-- A device that meets here by itself. login NULL = it does no more: lost, stolen, laid up.
-- relay: it also brings the chains of devices that have no login of their own, as phones.
CREATE TABLE mistfold.device (
  firm integer NOT NULL REFERENCES mistfold.firm,
  device text NOT NULL CHECK (device ~ '^[a-z0-9-]{1,16}$'),
  login name UNIQUE,
  relay boolean NOT NULL DEFAULT false,
  PRIMARY KEY (firm, device));

-- Who reads the views of mistfold_office, and nothing else.
CREATE TABLE mistfold.reader (
  login name PRIMARY KEY,
  firm integer NOT NULL REFERENCES mistfold.firm);

-- The bytes of attachments, each once a firm.
CREATE TABLE mistfold.content (
  firm integer NOT NULL,
  sha256 bytea NOT NULL,
  device text NOT NULL,
  bytes bytea NOT NULL,
  PRIMARY KEY (firm, sha256),
  CONSTRAINT content_hash CHECK (sha256(bytes) = sha256));
ALTER TABLE mistfold.content ALTER COLUMN bytes SET STORAGE EXTERNAL;

-- One entry a row. body stays text, because its bytes are hashed; prev is the hash of the row
-- before.
CREATE TABLE mistfold.entry (
  firm integer NOT NULL,
  device text NOT NULL CHECK (device ~ '^[a-z0-9-]{1,16}$'),
  seq bigint NOT NULL CHECK (seq > 0),
  at text NOT NULL,
  who text NOT NULL,
  kind text NOT NULL,
  job text NOT NULL,
  body text NOT NULL,
  hash bytea NOT NULL CHECK (octet_length(hash) = 32),
  PRIMARY KEY (firm, device, seq));
CREATE INDEX entry_by_kind ON mistfold.entry (firm, kind, job);

-- Who handed out which piece of a chain, with the lines around its entries: what its writer knew,
-- and its signatures. sha256 is that of the whole text.
CREATE TABLE mistfold.segment (
  firm integer NOT NULL,
  device text NOT NULL CHECK (device ~ '^[a-z0-9-]{1,16}$'),
  from_seq bigint NOT NULL CHECK (from_seq > 0),
  to_seq bigint NOT NULL,
  writer text NOT NULL CHECK (writer ~ '^[a-z0-9-]{1,16}$'),
  sha256 bytea NOT NULL CHECK (octet_length(sha256) = 32),
  size bigint NOT NULL CHECK (size BETWEEN 1 AND 268435456),
  first_line text NOT NULL,
  last_line text NOT NULL,
  PRIMARY KEY (firm, device, to_seq, from_seq, writer, sha256),
  CHECK (from_seq <= to_seq),
  FOREIGN KEY (firm, device, to_seq) REFERENCES mistfold.entry (firm, device, seq));

-- The last entry of each chain.
CREATE TABLE mistfold.head (
  firm integer NOT NULL,
  device text NOT NULL,
  seq bigint NOT NULL,
  hash bytea NOT NULL,
  PRIMARY KEY (firm, device));

-- ---- whose login it is ------------------------------------------------------------------------
CREATE FUNCTION mistfold.my_firm() RETURNS integer
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp
  AS $$ SELECT firm FROM mistfold.device WHERE login = session_user
        UNION ALL SELECT firm FROM mistfold.reader WHERE login = session_user LIMIT 1 $$;
CREATE FUNCTION mistfold.my_device() RETURNS text
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp
  AS $$ SELECT device FROM mistfold.device WHERE login = session_user $$;
CREATE FUNCTION mistfold.is_relay() RETURNS boolean
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp
  AS $$ SELECT coalesce((SELECT relay FROM mistfold.device WHERE login = session_user), false) $$;

-- ---- what is refused ----------------------------------------------------------------------------
CREATE FUNCTION mistfold.refuse_change() RETURNS trigger
  LANGUAGE plpgsql SET search_path = pg_catalog, pg_temp
  AS $$
BEGIN
  RAISE EXCEPTION 'what was handed out is never changed' USING ERRCODE = 'MF001';
END $$;
CREATE TRIGGER entry_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON mistfold.entry
  FOR EACH STATEMENT EXECUTE FUNCTION mistfold.refuse_change();
CREATE TRIGGER content_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON mistfold.content
  FOR EACH STATEMENT EXECUTE FUNCTION mistfold.refuse_change();
CREATE TRIGGER segment_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON mistfold.segment
  FOR EACH STATEMENT EXECUTE FUNCTION mistfold.refuse_change();
CREATE TRIGGER head_no_loss BEFORE DELETE OR TRUNCATE ON mistfold.head
  FOR EACH STATEMENT EXECUTE FUNCTION mistfold.refuse_change();

CREATE FUNCTION mistfold.head_goes_on() RETURNS trigger
  LANGUAGE plpgsql SET search_path = pg_catalog, pg_temp
  AS $$
BEGIN
  IF NEW.firm <> OLD.firm OR NEW.device <> OLD.device OR NEW.seq <= OLD.seq THEN
    RAISE EXCEPTION 'the end of a chain never goes back' USING ERRCODE = 'MF001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER head_goes_on BEFORE UPDATE ON mistfold.head
  FOR EACH ROW EXECUTE FUNCTION mistfold.head_goes_on();

-- Each line is put together again (RFC 8785) and hashed behind the hash of the row before: a row
-- that does not follow, or says something else than its hash, is refused with all that came with
-- it. The bytes of attachments are there before the entries that name them.
CREATE FUNCTION mistfold.entry_in_chain() RETURNS trigger
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp
  SET enable_hashjoin = off SET enable_mergejoin = off -- a day's work against all years
  AS $$
DECLARE odd record;
BEGIN
  SELECT n.device, n.seq, p.hash IS NULL AND n.seq > 1 AS alone INTO odd
    FROM fresh n LEFT JOIN mistfold.entry p
      ON p.firm = n.firm AND p.device = n.device AND p.seq = n.seq - 1
   WHERE p.hash IS NULL AND n.seq > 1
      OR jsonb_typeof(n.body::jsonb) <> 'object'
      OR n.hash <> sha256(convert_to(
           '{"at":' || to_json(n.at) || ',"body":' || n.body || ',"device":' || to_json(n.device) ||
           ',"job":' || to_json(n.job) || ',"kind":' || to_json(n.kind) || ',"prev":"' ||
           coalesce(encode(p.hash, 'hex'), repeat('0', 64)) || '","seq":' || n.seq ||
           ',"who":' || to_json(n.who) || '}', 'UTF8'))
   ORDER BY n.device, n.seq LIMIT 1;
  IF odd.alone THEN
    RAISE EXCEPTION 'the entry before %/% is not here', odd.device, odd.seq USING ERRCODE = 'MF002';
  ELSIF FOUND THEN
    RAISE EXCEPTION 'entry %/% does not follow what is here, or is not what its hash says',
      odd.device, odd.seq USING ERRCODE = 'MF002';
  END IF;
  SELECT n.device, n.seq INTO odd FROM fresh n
   WHERE n.kind = 'attachment' AND NOT EXISTS (
     SELECT FROM mistfold.content c
      WHERE c.firm = n.firm AND encode(c.sha256, 'hex') = n.body::jsonb ->> 'sha256'
        AND c.sha256 = decode(n.body::jsonb ->> 'sha256', 'hex'))
   LIMIT 1;
  IF FOUND THEN
    RAISE EXCEPTION 'the bytes of the attachment of %/% are not here', odd.device, odd.seq
      USING ERRCODE = 'MF003';
  END IF;
  INSERT INTO mistfold.head AS h (firm, device, seq, hash)
  SELECT DISTINCT ON (n.firm, n.device) n.firm, n.device, n.seq, n.hash FROM fresh n
   ORDER BY n.firm, n.device, n.seq DESC
  ON CONFLICT (firm, device) DO UPDATE SET seq = excluded.seq, hash = excluded.hash
   WHERE h.seq < excluded.seq;
  RETURN NULL;
END $$;
CREATE TRIGGER entry_in_chain AFTER INSERT ON mistfold.entry REFERENCING NEW TABLE AS fresh
  FOR EACH STATEMENT EXECUTE FUNCTION mistfold.entry_in_chain();

-- ---- who may do what ----------------------------------------------------------------------------
ALTER TABLE mistfold.version ENABLE ROW LEVEL SECURITY;
ALTER TABLE mistfold.firm ENABLE ROW LEVEL SECURITY;
ALTER TABLE mistfold.device ENABLE ROW LEVEL SECURITY;
ALTER TABLE mistfold.reader ENABLE ROW LEVEL SECURITY;
ALTER TABLE mistfold.content ENABLE ROW LEVEL SECURITY;
ALTER TABLE mistfold.entry ENABLE ROW LEVEL SECURITY;
ALTER TABLE mistfold.segment ENABLE ROW LEVEL SECURITY;
ALTER TABLE mistfold.head ENABLE ROW LEVEL SECURITY;

CREATE POLICY seen ON mistfold.version FOR SELECT USING (true);
CREATE POLICY seen ON mistfold.firm FOR SELECT USING (firm = (SELECT mistfold.my_firm()));
CREATE POLICY seen ON mistfold.device FOR SELECT USING (firm = (SELECT mistfold.my_firm()));
CREATE POLICY seen ON mistfold.content FOR SELECT USING (firm = (SELECT mistfold.my_firm()));
CREATE POLICY seen ON mistfold.entry FOR SELECT USING (firm = (SELECT mistfold.my_firm()));
CREATE POLICY seen ON mistfold.segment FOR SELECT USING (firm = (SELECT mistfold.my_firm()));
CREATE POLICY seen ON mistfold.head FOR SELECT USING (firm = (SELECT mistfold.my_firm()));

CREATE POLICY brought ON mistfold.content FOR INSERT
  WITH CHECK (firm = (SELECT mistfold.my_firm()) AND device = (SELECT mistfold.my_device()));
CREATE POLICY handed_out ON mistfold.entry FOR INSERT
  WITH CHECK (firm = (SELECT mistfold.my_firm())
              AND (device = (SELECT mistfold.my_device())
                   OR (SELECT mistfold.is_relay())
                      AND device NOT IN (SELECT d.device FROM mistfold.device d
                                          WHERE d.login IS NOT NULL)));
CREATE POLICY handed_out ON mistfold.segment FOR INSERT
  WITH CHECK (firm = (SELECT mistfold.my_firm()) AND writer = (SELECT mistfold.my_device())
              AND (device = (SELECT mistfold.my_device())
                   OR (SELECT mistfold.is_relay())
                      AND device NOT IN (SELECT d.device FROM mistfold.device d
                                          WHERE d.login IS NOT NULL)));

REVOKE ALL ON ALL FUNCTIONS IN SCHEMA mistfold FROM PUBLIC;
GRANT USAGE ON SCHEMA mistfold TO mistfold_device;
GRANT EXECUTE ON FUNCTION mistfold.my_firm(), mistfold.my_device(), mistfold.is_relay()
  TO mistfold_device;
GRANT SELECT ON mistfold.version, mistfold.firm, mistfold.device, mistfold.content, mistfold.entry,
  mistfold.segment, mistfold.head TO mistfold_device;
GRANT INSERT ON mistfold.content, mistfold.entry, mistfold.segment TO mistfold_device;
