-- What a store consists of, a line each: structure, triggers, policies, grants. The same on every
-- server that has just this version (sync --check).
WITH space AS (
  SELECT n.oid, n.nspname, n.nspowner, n.nspacl FROM pg_namespace n
   WHERE n.nspname IN ('mistfold', 'mistfold_office')),
thing AS (
  SELECT c.oid, s.nspname || '.' || c.relname AS name, c.relkind, c.relowner, c.relacl,
         c.relrowsecurity, c.relpersistence, c.reloptions
    FROM pg_class c JOIN space s ON s.oid = c.relnamespace WHERE c.relkind NOT IN ('i', 't')),
granted AS (
  SELECT 'schema ' || s.nspname AS name, a.* FROM space s,
    aclexplode(coalesce(s.nspacl, acldefault('n', s.nspowner))) a
  UNION ALL
  SELECT t.name, a.* FROM thing t,
    aclexplode(coalesce(t.relacl, acldefault(CASE t.relkind WHEN 'S' THEN 's' ELSE 'r' END::"char",
                                             t.relowner))) a
  UNION ALL
  SELECT t.name || '.' || c.attname, a.* FROM thing t JOIN pg_attribute c ON c.attrelid = t.oid,
    aclexplode(c.attacl) a
  UNION ALL
  SELECT s.nspname || '.' || p.proname || '()', a.* FROM pg_proc p
    JOIN space s ON s.oid = p.pronamespace,
    aclexplode(coalesce(p.proacl, acldefault('f', p.proowner))) a),
line AS (
  SELECT 'version ' || (SELECT string_agg(v.version::text, ', ') FROM mistfold.version v) AS is
  UNION ALL
  SELECT format('role %s login %s super %s bypassrls %s createrole %s createdb %s', r.rolname,
                r.rolcanlogin, r.rolsuper, r.rolbypassrls, r.rolcreaterole, r.rolcreatedb)
    FROM pg_roles r WHERE r.rolname IN ('mistfold_owner', 'mistfold_device', 'mistfold_office')
  UNION ALL
  SELECT format('member %s of %s', m.member::regrole, m.roleid::regrole) FROM pg_auth_members m
   WHERE m.roleid = to_regrole('mistfold_owner')
      OR m.member IN (to_regrole('mistfold_owner'), to_regrole('mistfold_device'),
                      to_regrole('mistfold_office'))
  UNION ALL
  SELECT format('login %s super %s bypassrls %s', r.rolname, r.rolsuper, r.rolbypassrls)
    FROM pg_roles r JOIN pg_auth_members m ON m.member = r.oid
   WHERE m.roleid IN (to_regrole('mistfold_device'), to_regrole('mistfold_office'))
     AND (r.rolsuper OR r.rolbypassrls)
  UNION ALL
  SELECT format('schema %s of %s', s.nspname, s.nspowner::regrole) FROM space s
  UNION ALL
  SELECT format('%s %s of %s, rows %s, %s %s',
                CASE t.relkind WHEN 'r' THEN 'table' WHEN 'v' THEN 'view' WHEN 'S' THEN 'sequence'
                               ELSE t.relkind::text END,
                t.name, t.relowner::regrole, t.relrowsecurity, t.relpersistence, t.reloptions)
    FROM thing t
  UNION ALL
  SELECT format('column %s.%s %s%s%s', t.name, c.attname, format_type(c.atttypid, c.atttypmod),
                CASE WHEN c.attnotnull THEN ' not null' ELSE '' END,
                ' ' || coalesce(pg_get_expr(d.adbin, d.adrelid), c.attidentity::text))
    FROM thing t JOIN pg_attribute c ON c.attrelid = t.oid AND c.attnum > 0 AND NOT c.attisdropped
    LEFT JOIN pg_attrdef d ON d.adrelid = t.oid AND d.adnum = c.attnum
   WHERE t.relkind IN ('r', 'v')
  UNION ALL
  SELECT format('constraint %s %s', t.name, pg_get_constraintdef(c.oid))
    FROM thing t JOIN pg_constraint c ON c.conrelid = t.oid WHERE c.contype IN ('c', 'p', 'u', 'f')
  UNION ALL
  SELECT format('index %s', pg_get_indexdef(i.indexrelid))
    FROM thing t JOIN pg_index i ON i.indrelid = t.oid
  UNION ALL
  SELECT format('trigger %s, %s', pg_get_triggerdef(g.oid),
                CASE g.tgenabled WHEN 'O' THEN 'on' WHEN 'D' THEN 'off' ELSE g.tgenabled::text END)
    FROM thing t JOIN pg_trigger g ON g.tgrelid = t.oid WHERE NOT g.tgisinternal
  UNION ALL
  SELECT format('trigger of the server for %s on %s, %s', g.tgconstrrelid::regclass, t.name, 'off')
    FROM thing t JOIN pg_trigger g ON g.tgrelid = t.oid WHERE g.tgisinternal AND g.tgenabled <> 'O'
  UNION ALL
  SELECT format('rule %s on %s', r.rulename, t.name)
    FROM thing t JOIN pg_rewrite r ON r.ev_class = t.oid WHERE r.rulename <> '_RETURN'
  UNION ALL
  SELECT format('policy %s on %s for %s to %s, permissive %s, using %s, check %s', p.polname, t.name,
                p.polcmd,
                (SELECT string_agg(CASE x WHEN 0 THEN 'all' ELSE x::regrole::text END, ' ' ORDER BY x)
                   FROM unnest(p.polroles) x),
                p.polpermissive, pg_get_expr(p.polqual, p.polrelid),
                pg_get_expr(p.polwithcheck, p.polrelid))
    FROM thing t JOIN pg_policy p ON p.polrelid = t.oid
  UNION ALL
  SELECT format('function %s of %s, definer %s, %s, %s, %s',
                p.oid::regprocedure, p.proowner::regrole, p.prosecdef, p.provolatile, p.proconfig,
                encode(sha256(convert_to(p.prosrc, 'UTF8')), 'hex'))
    FROM pg_proc p JOIN space s ON s.oid = p.pronamespace
  UNION ALL
  SELECT format('view %s %s', t.name,
                encode(sha256(convert_to(regexp_replace(pg_get_viewdef(t.oid),
                                                        '\m[a-z]\.|\s', '', 'g'), 'UTF8')), 'hex'))
    FROM thing t WHERE t.relkind = 'v'
  UNION ALL
  SELECT format('grant %s on %s to %s%s', g.privilege_type, g.name,
                CASE g.grantee WHEN 0 THEN 'all' ELSE g.grantee::regrole::text END,
                CASE WHEN g.is_grantable THEN ', who may grant it on' ELSE '' END)
    FROM granted g WHERE g.grantee <> to_regrole('mistfold_owner')
  UNION ALL
  SELECT format('setting %s of %s', c.setting, coalesce(s.setrole::regrole::text, 'all'))
    FROM pg_db_role_setting s, unnest(s.setconfig) AS c (setting)
   WHERE c.setting LIKE 'session_replication_role=%' OR c.setting LIKE 'row_security=%'
  UNION ALL
  SELECT format('event trigger %s', e.evtname) FROM pg_event_trigger e)
SELECT p.is FROM (
  SELECT regexp_replace(CASE WHEN l.is LIKE 'policy %' THEN regexp_replace(l.is, '\m[a-z]\.', '', 'g')
                             ELSE l.is END, '\s+', ' ', 'g') AS is
    FROM line l) p
 ORDER BY p.is COLLATE "C";
