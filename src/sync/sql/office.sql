
-- ---- for the office: views to read, of the firm of whoever asks. Nothing is judged from them:
-- whether a job may go on, and what is due by the rule, is asked of the program. ------------------

-- What is no day, or no number, is nothing: one entry must not spoil a list.
CREATE FUNCTION mistfold_office.day_of(said text) RETURNS date
  LANGUAGE plpgsql IMMUTABLE SET search_path = pg_catalog, pg_temp
  AS $$
BEGIN
  RETURN to_date(said, 'YYYY-MM-DD');
EXCEPTION WHEN OTHERS THEN
  RETURN NULL;
END $$;
CREATE FUNCTION mistfold_office.number_of(said jsonb) RETURNS numeric
  LANGUAGE sql IMMUTABLE SET search_path = pg_catalog, pg_temp
  AS $$ SELECT CASE jsonb_typeof(said) WHEN 'number' THEN said::numeric END $$;

CREATE VIEW mistfold_office.entry WITH (security_barrier) AS
  SELECT e.device || '/' || e.seq AS entry, e.at, e.who, e.kind, e.job, e.body::jsonb AS body,
         e.device, e.seq
    FROM mistfold.entry e WHERE e.firm = (SELECT mistfold.my_firm());

-- Every entry as it was corrected last; without those that were withdrawn. contradicted: two
-- devices corrected it without knowing of each other, and a person has to sort it out.
CREATE VIEW mistfold_office.in_force WITH (security_barrier) AS
  WITH c AS (
    SELECT e.entry, e.at, e.device, e.seq, e.body ->> 'target' AS target,
           e.body ->> 'replaces' AS replaces, e.body -> 'body' AS body
      FROM mistfold_office.entry e WHERE e.kind = 'correction'),
  last AS (
    SELECT c.*, count(*) OVER t > 1 AS contradicted,
           row_number() OVER (PARTITION BY c.target ORDER BY c.at DESC, c.device DESC, c.seq DESC) AS n
      FROM c
     WHERE NOT EXISTS (SELECT FROM c r WHERE r.target = c.target AND r.replaces = c.entry
                                         AND r.entry <> c.entry)
    WINDOW t AS (PARTITION BY c.target))
  SELECT e.entry, e.at, e.who, e.kind, e.job, coalesce(l.body, e.body) AS body,
         coalesce(l.entry, '') AS correction, coalesce(l.contradicted, false) AS contradicted
    FROM mistfold_office.entry e LEFT JOIN last l ON l.target = e.entry AND l.n = 1
   WHERE e.kind <> 'correction' AND (l.entry IS NULL OR jsonb_typeof(l.body) = 'object');

-- Jobs, and how far their entries say they are: opened, begun, completed, handed over.
CREATE VIEW mistfold_office.job WITH (security_barrier) AS
  WITH said AS (
    SELECT f.job, bool_or(f.kind IN ('tick', 'practice', 'verification')) AS begun,
           max(f.body ->> 'day') FILTER (WHERE f.kind = 'completion') AS completed,
           max(f.body ->> 'day') FILTER (WHERE f.kind = 'handover') AS handed_over,
           string_agg(DISTINCT f.body ->> 'person', ', ')
             FILTER (WHERE f.kind = 'assignment' AND f.body ->> 'duty' = 'renovator') AS renovators,
           max(f.at) AS last_logged, bool_or(f.contradicted) AS contradicted
      FROM mistfold_office.in_force f WHERE f.job <> '' GROUP BY f.job)
  SELECT h.job, h.body ->> 'address' AS address, h.body ->> 'unit' AS unit,
         h.body ->> 'description' AS description, h.body ->> 'start' AS start,
         h.body ->> 'end' AS planned_end,
         CASE WHEN s.handed_over IS NOT NULL THEN 'handed over'
              WHEN s.completed IS NOT NULL THEN 'completed'
              WHEN s.begun THEN 'begun' ELSE 'opened' END AS state,
         s.completed, s.handed_over, s.renovators, s.last_logged, s.contradicted
    FROM mistfold_office.in_force h JOIN said s ON s.job = h.job WHERE h.kind = 'house';

CREATE VIEW mistfold_office.reading WITH (security_barrier) AS
  SELECT f.job, f.entry, f.body ->> 'component' AS component,
         mistfold_office.number_of(f.body -> 'number') AS number, f.body ->> 'day' AS day,
         f.body ->> 'purpose' AS purpose, f.body ->> 'instrument' AS instrument,
         f.body ->> 'operator' AS operator, f.body ->> 'substrate' AS substrate,
         f.body ->> 'qualifier' AS qualifier,
         round(mistfold_office.number_of(f.body -> 'loading_ug_cm2') / 1000, 3) AS mg_cm2
    FROM mistfold_office.in_force f WHERE f.kind = 'reading';

-- Readings of each component; what they mean is asked of the program.
CREATE VIEW mistfold_office.component WITH (security_barrier) AS
  SELECT c.job, c.body ->> 'id' AS component, c.body ->> 'type' AS type,
         c.body ->> 'opening' AS opening, c.body ->> 'side' AS side, c.body ->> 'room' AS room,
         c.body ->> 'substrate' AS substrate, count(r.entry) AS readings,
         max(r.mg_cm2) AS highest_mg_cm2
    FROM mistfold_office.in_force c
    LEFT JOIN mistfold_office.reading r ON r.job = c.job AND r.component = c.body ->> 'id'
   WHERE c.kind = 'component' GROUP BY c.job, c.entry, c.body;

-- Who has something in hand: what a job that is not handed over has no entry of yet.
CREATE VIEW mistfold_office.to_do WITH (security_barrier) AS
  WITH has AS (SELECT f.job, f.kind FROM mistfold_office.in_force f GROUP BY f.job, f.kind)
  SELECT j.job, CASE WHEN w.office THEN 'office' ELSE coalesce(j.renovators, 'office') END AS who,
         w.what, CASE w.by_start WHEN true THEN j.start ELSE j.planned_end END AS day
    FROM mistfold_office.job j, (VALUES
      ('assignment', 'nobody is assigned', true, true),
      ('notice', 'no notice is logged', true, true),
      ('verification', 'no cleaning verification is logged', false, false),
      ('completion', 'nobody said that it is completed', false, false),
      ('handover', 'nothing is handed over', true, false)) AS w (kind, what, office, by_start)
   WHERE j.state <> 'handed over'
     AND NOT EXISTS (SELECT FROM has h WHERE h.job = j.job AND h.kind = w.kind)
  UNION ALL
  SELECT f.job, 'office', 'two devices corrected ' || f.entry || ' differently', NULL
    FROM mistfold_office.in_force f WHERE f.contradicted;

CREATE VIEW mistfold_office.certificate WITH (security_barrier) AS
  SELECT f.body ->> 'holder' AS holder, p.body ->> 'name' AS name,
         f.body ->> 'discipline' AS discipline, f.body ->> 'number' AS number,
         f.body ->> 'expires' AS expires,
         mistfold_office.day_of(f.body ->> 'expires') - current_date AS days_left
    FROM mistfold_office.in_force f
    LEFT JOIN mistfold_office.in_force p ON p.kind = 'person' AND p.body ->> 'id' = f.body ->> 'holder'
   WHERE f.kind = 'certificate';

REVOKE ALL ON ALL FUNCTIONS IN SCHEMA mistfold_office FROM PUBLIC;
GRANT USAGE ON SCHEMA mistfold_office TO mistfold_office;
GRANT SELECT ON ALL TABLES IN SCHEMA mistfold_office TO mistfold_office;
GRANT EXECUTE ON ALL FUNCTIONS IN SCHEMA mistfold_office TO mistfold_office;
GRANT EXECUTE ON FUNCTION mistfold.my_firm() TO mistfold_office;
