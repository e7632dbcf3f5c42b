DO $$
DECLARE
  append_only text;
BEGIN
  FOREACH append_only IN ARRAY ARRAY[
    'firing_logs', 'firing_readings', 'firing_costs', 'firing_withdrawals',
    'tile_colours', 'test_photos', 'test_reports', 'pair_reviews'
  ] LOOP
    EXECUTE format('CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', append_only);
    EXECUTE format('CREATE TRIGGER keep_table BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', append_only);
  END LOOP;
END $$;
--> statement-breakpoint
-- As before, and the cones of a withdrawn firing witness nothing.
CREATE OR REPLACE VIEW tile_evidence AS
  SELECT
    t.id, r.melt_digest, t.cone, cone_place(t.cone) AS cone_place, t.atmosphere, t.defects,
    EXISTS (
      SELECT 1 FROM firings f JOIN witness_cones w ON w.firing_id = f.id
      WHERE f.id = t.firing_id AND f.kind = t.atmosphere AND w.cone = t.cone AND w.bend_degrees BETWEEN 60 AND 120
        AND NOT EXISTS (SELECT 1 FROM firing_withdrawals x WHERE x.firing_id = f.id)
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
-- A pair is reviewed by reviewers who wrote neither of its glazes.
CREATE FUNCTION refuse_unfounded_pair_review() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NOT EXISTS (SELECT 1 FROM people p WHERE p.id = NEW."by" AND p.role IN ('reviewer', 'manager') AND p.removed_at IS NULL) THEN
    RAISE EXCEPTION 'only a reviewer or a manager reviews' USING ERRCODE = 'insufficient_privilege';
  END IF;
  IF EXISTS (SELECT 1 FROM pairs p WHERE p.id = NEW.pair_id
    AND (is_own_content(NEW."by", p.over_id) OR is_own_content(NEW."by", p.under_id)))
  THEN
    RAISE EXCEPTION 'nobody reviews what they wrote' USING ERRCODE = 'insufficient_privilege';
  END IF;
  RETURN NEW;
END $$;
--> statement-breakpoint
CREATE TRIGGER pair_reviews_are_founded BEFORE INSERT ON pair_reviews FOR EACH ROW EXECUTE FUNCTION refuse_unfounded_pair_review();
