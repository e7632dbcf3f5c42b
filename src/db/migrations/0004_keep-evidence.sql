DO $$
DECLARE
  append_only text;
BEGIN
  FOREACH append_only IN ARRAY ARRAY[
    'body_sheets', 'firings', 'witness_cones', 'tests', 'test_results', 'test_withdrawals', 'lots',
    'revision_coauthors', 'review_requests', 'reviews', 'offers', 'offer_answers',
    'note_closings', 'note_mentions', 'bucket_changes'
  ] LOOP
    EXECUTE format('CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', append_only);
    EXECUTE format('CREATE TRIGGER keep_table BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', append_only);
  END LOOP;
END $$;
--> statement-breakpoint
CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON note_edits FOR EACH ROW EXECUTE FUNCTION refuse_all_but_blanking();
--> statement-breakpoint
CREATE TRIGGER keep_table BEFORE TRUNCATE ON note_edits FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
-- As before, and a note's edited words go with it, and a person's wishes.
CREATE OR REPLACE FUNCTION forget(what text, which text, by_manager uuid, reason text, moment timestamptz) RETURNS boolean LANGUAGE plpgsql AS $$
DECLARE
  blanked integer;
BEGIN
  IF NOT EXISTS (SELECT 1 FROM people WHERE id = by_manager AND role = 'manager' AND removed_at IS NULL) THEN
    RAISE EXCEPTION 'only a manager can have something forgotten' USING ERRCODE = 'insufficient_privilege';
  END IF;
  IF what = 'note' THEN
    UPDATE note_edits SET text = NULL, removed_at = moment, removed_by = by_manager, removed_why = reason
      WHERE note_id = which::uuid AND removed_at IS NULL;
    UPDATE note_texts SET text = NULL, removed_at = moment, removed_by = by_manager, removed_why = reason
      WHERE note_id = which::uuid AND removed_at IS NULL;
  ELSIF what = 'picture' THEN
    UPDATE picture_bytes SET bytes = NULL, removed_at = moment, removed_by = by_manager, removed_why = reason
      WHERE sha256 = which AND removed_at IS NULL;
  ELSIF what = 'person' THEN
    UPDATE people SET
        name = 'Former member ' || right(which, 12), name_key = 'former member ' || right(which, 12),
        email = NULL, email_key = NULL, password_hash = NULL,
        removed_at = moment, removed_by = by_manager, removed_why = reason
      WHERE id = which::uuid AND removed_at IS NULL;
    GET DIAGNOSTICS blanked = ROW_COUNT;
    DELETE FROM sessions WHERE user_id = which::uuid;
    DELETE FROM answers WHERE person_id = which::uuid;
    DELETE FROM wishes WHERE person_id = which::uuid;
    RETURN blanked > 0;
  ELSE
    RAISE EXCEPTION 'nothing here is called %', what USING ERRCODE = 'invalid_parameter_value';
  END IF;
  GET DIAGNOSTICS blanked = ROW_COUNT;
  RETURN blanked > 0;
END $$;
--> statement-breakpoint
-- What was published before standings were kept is derived at the next reading.
INSERT INTO revision_standings (revision_id, "is", because, basis, unsettled, marks)
  SELECT id, 'draft', '{}', '{}', true, 0 FROM revisions;
--> statement-breakpoint
-- A cone's place in the ordered list, coolest first; null for what is no cone.
CREATE FUNCTION cone_place(cone text) RETURNS integer LANGUAGE sql IMMUTABLE AS $$
  SELECT array_position(ARRAY[
    '022', '021', '020', '019', '018', '017', '016', '015', '014', '013', '012', '011', '010',
    '09', '08', '07', '06', '05', '04', '03', '02', '01',
    '1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12', '13', '14'], cone) - 1
$$;
--> statement-breakpoint
-- Tiles of one glaze alone that are not withdrawn, with what makes them count as evidence.
CREATE VIEW tile_evidence AS
  SELECT
    t.id, r.melt_digest, t.cone, cone_place(t.cone) AS cone_place, t.atmosphere, t.defects,
    EXISTS (
      SELECT 1 FROM firings f JOIN witness_cones w ON w.firing_id = f.id
      WHERE f.id = t.firing_id AND f.kind = t.atmosphere AND w.cone = t.cone AND w.bend_degrees BETWEEN 60 AND 120
    ) AS witnessed,
    b.absorption_percent < 3 AND cone_place(t.cone) BETWEEN b.cone_low_place AND b.cone_high_place AS body_fits
  FROM tiles t
  JOIN revisions r ON r.id = t.revision_id
  LEFT JOIN LATERAL (
    SELECT s.* FROM body_sheets s WHERE s.body_id = t.body_id ORDER BY s.id DESC LIMIT 1
  ) b ON true
  WHERE t.over_id IS NULL
    AND NOT EXISTS (SELECT 1 FROM tile_withdrawals w WHERE w.tile_id = t.id);
--> statement-breakpoint
-- What a revision lacks to be approved as functional; empty where nothing is missing. The pages ask
-- src/chem/evidence.ts, which says it in words; a test holds both against each other.
CREATE FUNCTION missing_for_functional(which uuid) RETURNS text[] LANGUAGE plpgsql STABLE AS $$
DECLARE
  target record;
  missing text[] := '{}';
  sound uuid[];
  wanted text;
  unsound CONSTANT text[] := ARRAY['crazing', 'shivering', 'blistering', 'underfired'];
BEGIN
  SELECT r.*, c.stops, c.leach_elements INTO target
    FROM revisions r LEFT JOIN chemistries c ON c.revision_id = r.id WHERE r.id = which;
  IF target."use" <> 'functional' THEN missing := missing || 'use'::text; END IF;
  IF target.stops IS NULL OR target.stops > 0 THEN missing := missing || 'stop'::text; END IF;
  SELECT coalesce(array_agg(id), '{}') INTO sound FROM tile_evidence
    WHERE melt_digest = target.melt_digest AND atmosphere = target.atmosphere
      AND cone_place BETWEEN target.cone_low_place AND target.cone_high_place
      AND witnessed AND body_fits AND NOT defects && unsound;
  IF NOT EXISTS (SELECT 1 FROM tiles WHERE id = ANY (sound) AND cone = target.cone_low) THEN
    missing := missing || 'tile-low'::text;
  END IF;
  IF target.cone_high <> target.cone_low
    AND NOT EXISTS (SELECT 1 FROM tiles WHERE id = ANY (sound) AND cone = target.cone_high)
  THEN
    missing := missing || 'tile-high'::text;
  END IF;
  IF EXISTS (SELECT 1 FROM tile_evidence
    WHERE melt_digest = target.melt_digest AND atmosphere = target.atmosphere
      AND cone_place BETWEEN target.cone_low_place AND target.cone_high_place
      AND body_fits IS NOT FALSE AND defects && unsound)
  THEN
    missing := missing || 'unsound-tile'::text;
  END IF;
  FOREACH wanted IN ARRAY ARRAY['acid', 'alkali', 'dishwasher'] LOOP
    IF NOT EXISTS (SELECT 1 FROM tests x
      WHERE x.kind = wanted AND x.outcome = 'passed' AND x.tile_id = ANY (sound)
        AND NOT EXISTS (SELECT 1 FROM test_withdrawals w WHERE w.test_id = x.id))
    THEN
      missing := missing || wanted;
    END IF;
  END LOOP;
  IF EXISTS (SELECT 1 FROM tests x JOIN revisions r ON r.id = x.revision_id LEFT JOIN tiles t ON t.id = x.tile_id
    WHERE r.melt_digest = target.melt_digest AND x.outcome = 'failed' AND t.over_id IS NULL
      AND coalesce(t.atmosphere, r.atmosphere) = target.atmosphere
      AND coalesce(cone_place(t.cone), r.cone_high_place) >= target.cone_low_place
      AND coalesce(cone_place(t.cone), r.cone_low_place) <= target.cone_high_place
      AND NOT EXISTS (SELECT 1 FROM test_withdrawals w WHERE w.test_id = x.id))
  THEN
    missing := missing || 'failed-test'::text;
  END IF;
  IF target.leach_elements IS NULL THEN missing := missing || 'leach-unknown'::text; END IF;
  FOREACH wanted IN ARRAY coalesce(target.leach_elements, '{}') LOOP
    IF NOT EXISTS (SELECT 1 FROM tests x JOIN test_results y ON y.test_id = x.id
      WHERE x.kind = 'leach' AND x.outcome = 'passed' AND x.tile_id = ANY (sound) AND y.element = wanted
        AND NOT EXISTS (SELECT 1 FROM test_withdrawals w WHERE w.test_id = x.id))
    THEN
      missing := missing || ('leach-' || wanted);
    END IF;
  END LOOP;
  RETURN missing;
END $$;
--> statement-breakpoint
-- Whoever wrote a revision, or the first one that said the same.
CREATE FUNCTION is_own_content(person uuid, which uuid) RETURNS boolean LANGUAGE sql STABLE AS $$
  WITH target AS (SELECT id, digest FROM revisions WHERE id = which),
  first AS (SELECT r.id FROM revisions r JOIN target ON target.digest = r.digest ORDER BY r.published_at, r.id LIMIT 1),
  own AS (SELECT id FROM target UNION SELECT id FROM first)
  SELECT EXISTS (SELECT 1 FROM revisions r JOIN own ON own.id = r.id WHERE r.author_id = person)
    OR EXISTS (SELECT 1 FROM revision_coauthors c JOIN own ON own.id = c.revision_id WHERE c.person_id = person)
$$;
--> statement-breakpoint
CREATE FUNCTION refuse_unfounded_review() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  missing text[];
BEGIN
  IF NOT EXISTS (SELECT 1 FROM revisions r WHERE r.id = NEW.revision_id AND r.recipe_id = NEW.recipe_id AND r.digest = NEW.digest) THEN
    RAISE EXCEPTION 'a review is of what its revision says' USING ERRCODE = 'check_violation';
  END IF;
  IF NOT EXISTS (SELECT 1 FROM people p WHERE p.id = NEW."by" AND p.role IN ('reviewer', 'manager') AND p.removed_at IS NULL) THEN
    RAISE EXCEPTION 'only a reviewer or a manager reviews' USING ERRCODE = 'insufficient_privilege';
  END IF;
  IF is_own_content(NEW."by", NEW.revision_id) THEN
    RAISE EXCEPTION 'nobody reviews what they wrote' USING ERRCODE = 'insufficient_privilege';
  END IF;
  IF NEW.verdict = 'approve' AND NEW."for" = 'functional' THEN
    missing := missing_for_functional(NEW.revision_id);
    IF cardinality(missing) > 0 THEN
      RAISE EXCEPTION 'functional needs evidence: %', array_to_string(missing, ', ') USING ERRCODE = 'check_violation';
    END IF;
  END IF;
  RETURN NEW;
END $$;
--> statement-breakpoint
CREATE TRIGGER reviews_are_founded BEFORE INSERT ON reviews FOR EACH ROW EXECUTE FUNCTION refuse_unfounded_review();
