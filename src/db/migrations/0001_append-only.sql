-- What is on record stays on record: these tables take new rows and nothing else.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% is append-only: % is refused', TG_TABLE_NAME, TG_OP USING ERRCODE = 'restrict_violation';
END $$;
--> statement-breakpoint
DO $$
DECLARE
  append_only text;
BEGIN
  FOREACH append_only IN ARRAY ARRAY[
    'analyses', 'analysis_oxides', 'analyses_in_use', 'discontinuations',
    'revisions', 'revision_lines', 'withdrawals', 'notes',
    'tiles', 'tile_withdrawals', 'pictures', 'photos', 'events'
  ] LOOP
    EXECUTE format('CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', append_only);
    EXECUTE format('CREATE TRIGGER keep_table BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', append_only);
  END LOOP;
END $$;
--> statement-breakpoint
-- Words and pictures can be blanked, and only blanked: the row, its key and who did it stay.
CREATE FUNCTION refuse_all_but_blanking() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  blanks CONSTANT text[] := ARRAY['text', 'bytes', 'removed_at', 'removed_by', 'removed_why'];
BEGIN
  IF TG_OP = 'UPDATE'
    AND to_jsonb(OLD) ->> 'removed_at' IS NULL
    AND to_jsonb(NEW) ->> 'removed_at' IS NOT NULL
    AND to_jsonb(NEW) ->> 'removed_by' IS NOT NULL
    AND to_jsonb(NEW) ->> 'removed_why' IS NOT NULL
    AND to_jsonb(OLD) - blanks = to_jsonb(NEW) - blanks
  THEN
    RETURN NEW;
  END IF;
  RAISE EXCEPTION '% can only be blanked: % is refused', TG_TABLE_NAME, TG_OP USING ERRCODE = 'restrict_violation';
END $$;
--> statement-breakpoint
CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON note_texts FOR EACH ROW EXECUTE FUNCTION refuse_all_but_blanking();
--> statement-breakpoint
CREATE TRIGGER keep_table BEFORE TRUNCATE ON note_texts FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON picture_bytes FOR EACH ROW EXECUTE FUNCTION refuse_all_but_blanking();
--> statement-breakpoint
CREATE TRIGGER keep_table BEFORE TRUNCATE ON picture_bytes FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
-- The one way to forget: a manager blanks a person, the words of a note or the bytes of a picture.
-- Answers whether there was something to blank. The event that says so is the caller's, in the same transaction.
CREATE FUNCTION forget(what text, which text, by_manager uuid, reason text, moment timestamptz) RETURNS boolean LANGUAGE plpgsql AS $$
DECLARE
  blanked integer;
BEGIN
  IF NOT EXISTS (SELECT 1 FROM people WHERE id = by_manager AND role = 'manager' AND removed_at IS NULL) THEN
    RAISE EXCEPTION 'only a manager can have something forgotten' USING ERRCODE = 'insufficient_privilege';
  END IF;
  IF what = 'note' THEN
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
    RETURN blanked > 0;
  ELSE
    RAISE EXCEPTION 'nothing here is called %', what USING ERRCODE = 'invalid_parameter_value';
  END IF;
  GET DIAGNOSTICS blanked = ROW_COUNT;
  RETURN blanked > 0;
END $$;
