CREATE EXTENSION IF NOT EXISTS pg_trgm;
--> statement-breakpoint
CREATE TABLE "recipe_heads" (
	"recipe_id" uuid PRIMARY KEY NOT NULL,
	"revision_id" uuid NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"owner_id" uuid NOT NULL,
	"shown_to" text NOT NULL,
	"use" text NOT NULL,
	"cone_low_place" smallint NOT NULL,
	"cone_high_place" smallint NOT NULL,
	"atmosphere" text NOT NULL,
	"surface_key" text NOT NULL,
	"melt_digest" text NOT NULL,
	"materials" uuid[] NOT NULL,
	"is" text NOT NULL,
	"for" text,
	"approved_until" timestamp with time zone,
	"unity_li2o" double precision,
	"unity_na2o" double precision,
	"unity_k2o" double precision,
	"unity_mgo" double precision,
	"unity_cao" double precision,
	"unity_sro" double precision,
	"unity_bao" double precision,
	"unity_zno" double precision,
	"unity_pbo" double precision,
	"unity_b2o3" double precision,
	"unity_al2o3" double precision,
	"unity_sio2" double precision,
	CONSTRAINT "recipe_heads_revision_unique" UNIQUE("revision_id")
);
--> statement-breakpoint
CREATE TABLE "recipe_words" (
	"recipe_id" uuid PRIMARY KEY NOT NULL,
	"words" "tsvector" NOT NULL
);
--> statement-breakpoint
CREATE TABLE "spellings" (
	"word" text COLLATE "C" PRIMARY KEY NOT NULL,
	CONSTRAINT "spellings_word_length" CHECK (char_length("spellings"."word") between 4 and 40)
);
--> statement-breakpoint
ALTER TABLE "recipe_heads" ADD CONSTRAINT "recipe_heads_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recipe_heads" ADD CONSTRAINT "recipe_heads_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recipe_heads" ADD CONSTRAINT "recipe_heads_owner_id_people_id_fk" FOREIGN KEY ("owner_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recipe_words" ADD CONSTRAINT "recipe_words_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "recipe_heads_in_order" ON "recipe_heads" USING btree ("name_key","recipe_id");--> statement-breakpoint
CREATE INDEX "recipe_heads_functional" ON "recipe_heads" USING btree ("name_key","recipe_id") WHERE "recipe_heads"."approved_until" is not null and "recipe_heads"."for" = 'functional';--> statement-breakpoint
CREATE INDEX "recipe_heads_by_use" ON "recipe_heads" USING btree ("use","name_key","recipe_id");--> statement-breakpoint
CREATE INDEX "recipe_heads_by_atmosphere" ON "recipe_heads" USING btree ("atmosphere","name_key","recipe_id");--> statement-breakpoint
CREATE INDEX "recipe_heads_by_standing" ON "recipe_heads" USING btree ("is","name_key","recipe_id");--> statement-breakpoint
CREATE INDEX "recipe_heads_by_owner" ON "recipe_heads" USING btree ("owner_id","name_key","recipe_id");--> statement-breakpoint
CREATE INDEX "recipe_heads_by_cones" ON "recipe_heads" USING btree ("cone_low_place","cone_high_place","name_key","recipe_id");--> statement-breakpoint
CREATE INDEX "recipe_heads_by_hottest" ON "recipe_heads" USING btree ("cone_high_place","cone_low_place");--> statement-breakpoint
CREATE INDEX "recipe_heads_of_melt" ON "recipe_heads" USING btree ("melt_digest");--> statement-breakpoint
CREATE INDEX "recipe_heads_by_surface" ON "recipe_heads" USING gin ("surface_key" gin_trgm_ops);--> statement-breakpoint
CREATE INDEX "recipe_words_index" ON "recipe_words" USING gin ("words");--> statement-breakpoint
CREATE INDEX "spellings_like" ON "spellings" USING gin ("word" gin_trgm_ops);
--> statement-breakpoint
-- The form in which text is compared, as names have it: accents and case make no difference.
CREATE FUNCTION fold_text(typed text) RETURNS text LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT lower(regexp_replace(normalize(typed, NFKD), '[\u0300-\u036f]', '', 'g'))
$$;
--> statement-breakpoint
CREATE FUNCTION approved_until(standing text, unsettled boolean, valid_until timestamptz) RETURNS timestamptz
LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT CASE WHEN standing = 'approved' AND NOT unsettled THEN coalesce(valid_until, 'infinity') END
$$;
--> statement-breakpoint
CREATE VIEW recipe_heads_derived AS
SELECT r.id AS recipe_id, v.id AS revision_id, r.name_key, r.owner_id, r.shown_to, v.use,
  v.cone_low_place, v.cone_high_place, v.atmosphere, fold_text(v.surface) AS surface_key, v.melt_digest,
  (SELECT coalesce(array_agg(DISTINCT l.material_id ORDER BY l.material_id), '{}')
    FROM revision_lines l WHERE l.revision_id = v.id) AS materials,
  s."is", s."for", approved_until(s."is", s.unsettled, s.valid_until) AS approved_until,
  c.unity_li2o, c.unity_na2o, c.unity_k2o, c.unity_mgo, c.unity_cao, c.unity_sro,
  c.unity_bao, c.unity_zno, c.unity_pbo, c.unity_b2o3, c.unity_al2o3, c.unity_sio2
FROM recipes r
JOIN revisions v ON v.recipe_id = r.id AND v.number = r.head
JOIN revision_standings s ON s.revision_id = v.id
LEFT JOIN chemistries c ON c.revision_id = v.id;
--> statement-breakpoint
-- Names are indexed as they are written too, since one may be made of words that are left out of English.
-- Of notes the newest words, as many as one vector has room for.
CREATE VIEW recipe_words_derived AS
SELECT r.id AS recipe_id,
  setweight(to_tsvector('simple', r.name_key) || to_tsvector('english', r.name_key), 'A')
  || setweight(to_tsvector('english', fold_text(v.surface)), 'B')
  || setweight(to_tsvector('english', fold_text(v.about)), 'C')
  || setweight(to_tsvector('english', fold_text(left(coalesce(noted.words, ''), 200000))), 'D')
  || array_to_tsvector(ARRAY[r.owner_id::text]
    || ARRAY(SELECT DISTINCT l.material_id::text FROM revision_lines l WHERE l.revision_id = v.id)) AS words
FROM recipes r
JOIN revisions v ON v.recipe_id = r.id AND v.number = r.head
JOIN revision_standings s ON s.revision_id = v.id
LEFT JOIN LATERAL (
  SELECT string_agg(coalesce(e.text, t.text), E'\n' ORDER BY n.id DESC) AS words
  FROM notes n
  JOIN note_texts t ON t.note_id = n.id
  LEFT JOIN LATERAL (SELECT x.text FROM note_edits x WHERE x.note_id = n.id ORDER BY x.id DESC LIMIT 1) e ON true
  WHERE n.recipe_id = r.id AND t.text IS NOT NULL
) noted ON true;
--> statement-breakpoint
CREATE VIEW spellings_derived AS
SELECT DISTINCT r.id AS recipe_id, v.id AS revision_id, found.letters[1] COLLATE "C" AS word
FROM recipes r
JOIN revisions v ON v.recipe_id = r.id
CROSS JOIN LATERAL regexp_matches(
  r.name_key || ' ' || fold_text(v.surface) || ' ' || fold_text(v.about), '\m[a-z]{4,40}\M', 'g') AS found(letters);
--> statement-breakpoint
-- Two notes put at one moment on one recipe wait for each other here, so that neither is left out.
CREATE FUNCTION keep_recipe_words(changed uuid[]) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  PERFORM 1 FROM recipe_words WHERE recipe_id = ANY (changed) ORDER BY recipe_id FOR UPDATE;
  INSERT INTO recipe_words (recipe_id, words)
  SELECT recipe_id, words FROM recipe_words_derived WHERE recipe_id = ANY (changed) ORDER BY recipe_id
  ON CONFLICT (recipe_id) DO UPDATE SET words = excluded.words;
END $$;
--> statement-breakpoint
-- The last row of a revision that is written is what it counts as: then all that its head says is there.
CREATE FUNCTION keep_new_heads() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  changed uuid[];
BEGIN
  SELECT array_agg(r.id ORDER BY r.id) INTO changed
  FROM new_rows n
  JOIN revisions v ON v.id = n.revision_id
  JOIN recipes r ON r.id = v.recipe_id AND r.head = v.number;
  IF changed IS NULL THEN RETURN NULL; END IF;
  INSERT INTO recipe_heads (recipe_id, "revision_id", "name_key", "owner_id", "shown_to", "use", "cone_low_place", "cone_high_place", "atmosphere", "surface_key", "melt_digest", "materials", "is", "for", "approved_until", "unity_li2o", "unity_na2o", "unity_k2o", "unity_mgo", "unity_cao", "unity_sro", "unity_bao", "unity_zno", "unity_pbo", "unity_b2o3", "unity_al2o3", "unity_sio2")
  SELECT recipe_id, "revision_id", "name_key", "owner_id", "shown_to", "use", "cone_low_place", "cone_high_place", "atmosphere", "surface_key", "melt_digest", "materials", "is", "for", "approved_until", "unity_li2o", "unity_na2o", "unity_k2o", "unity_mgo", "unity_cao", "unity_sro", "unity_bao", "unity_zno", "unity_pbo", "unity_b2o3", "unity_al2o3", "unity_sio2"
  FROM recipe_heads_derived WHERE recipe_id = ANY (changed) ORDER BY recipe_id
  ON CONFLICT (recipe_id) DO UPDATE SET
    "revision_id" = excluded."revision_id",
    "name_key" = excluded."name_key",
    "owner_id" = excluded."owner_id",
    "shown_to" = excluded."shown_to",
    "use" = excluded."use",
    "cone_low_place" = excluded."cone_low_place",
    "cone_high_place" = excluded."cone_high_place",
    "atmosphere" = excluded."atmosphere",
    "surface_key" = excluded."surface_key",
    "melt_digest" = excluded."melt_digest",
    "materials" = excluded."materials",
    "is" = excluded."is",
    "for" = excluded."for",
    "approved_until" = excluded."approved_until",
    "unity_li2o" = excluded."unity_li2o",
    "unity_na2o" = excluded."unity_na2o",
    "unity_k2o" = excluded."unity_k2o",
    "unity_mgo" = excluded."unity_mgo",
    "unity_cao" = excluded."unity_cao",
    "unity_sro" = excluded."unity_sro",
    "unity_bao" = excluded."unity_bao",
    "unity_zno" = excluded."unity_zno",
    "unity_pbo" = excluded."unity_pbo",
    "unity_b2o3" = excluded."unity_b2o3",
    "unity_al2o3" = excluded."unity_al2o3",
    "unity_sio2" = excluded."unity_sio2";
  PERFORM keep_recipe_words(changed);
  INSERT INTO spellings (word)
  SELECT DISTINCT word FROM spellings_derived
  WHERE revision_id IN (SELECT revision_id FROM new_rows) ORDER BY word
  ON CONFLICT DO NOTHING;
  RETURN NULL;
END $$;
--> statement-breakpoint
-- The rows that a change has locked are what is written, never what another one may be changing.
CREATE FUNCTION keep_standings_of_heads() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  UPDATE recipe_heads h
  SET "is" = n."is", "for" = n."for", approved_until = approved_until(n."is", n.unsettled, n.valid_until)
  FROM new_rows n
  WHERE h.revision_id = n.revision_id
    AND (h."is", h."for", h.approved_until)
      IS DISTINCT FROM (n."is", n."for", approved_until(n."is", n.unsettled, n.valid_until));
  RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION keep_recipes_of_heads() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  renamed uuid[];
BEGIN
  SELECT array_agg(n.id ORDER BY n.id) INTO renamed
  FROM new_rows n JOIN recipe_heads h ON h.recipe_id = n.id
  WHERE (h.name_key, h.owner_id) IS DISTINCT FROM (n.name_key, n.owner_id);
  UPDATE recipe_heads h
  SET name_key = n.name_key, owner_id = n.owner_id, shown_to = n.shown_to
  FROM new_rows n
  WHERE h.recipe_id = n.id
    AND (h.name_key, h.owner_id, h.shown_to) IS DISTINCT FROM (n.name_key, n.owner_id, n.shown_to);
  IF renamed IS NOT NULL THEN PERFORM keep_recipe_words(renamed); END IF;
  RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION keep_chemistries_of_heads() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  UPDATE recipe_heads h
  SET unity_li2o = n.unity_li2o, unity_na2o = n.unity_na2o, unity_k2o = n.unity_k2o, unity_mgo = n.unity_mgo, unity_cao = n.unity_cao, unity_sro = n.unity_sro, unity_bao = n.unity_bao, unity_zno = n.unity_zno, unity_pbo = n.unity_pbo, unity_b2o3 = n.unity_b2o3, unity_al2o3 = n.unity_al2o3, unity_sio2 = n.unity_sio2
  FROM new_rows n
  WHERE h.revision_id = n.revision_id
    AND (h.unity_li2o, h.unity_na2o, h.unity_k2o, h.unity_mgo, h.unity_cao, h.unity_sro, h.unity_bao, h.unity_zno, h.unity_pbo, h.unity_b2o3, h.unity_al2o3, h.unity_sio2)
      IS DISTINCT FROM (n.unity_li2o, n.unity_na2o, n.unity_k2o, n.unity_mgo, n.unity_cao, n.unity_sro, n.unity_bao, n.unity_zno, n.unity_pbo, n.unity_b2o3, n.unity_al2o3, n.unity_sio2);
  RETURN NULL;
END $$;
--> statement-breakpoint
CREATE FUNCTION keep_notes_of_words() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM keep_recipe_words(array_agg(DISTINCT n.recipe_id))
  FROM new_rows c JOIN notes n ON n.id = c.note_id;
  RETURN NULL;
END $$;
--> statement-breakpoint
CREATE TRIGGER keep_heads AFTER INSERT ON revision_standings
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_new_heads();
--> statement-breakpoint
CREATE TRIGGER keep_heads_standing AFTER UPDATE ON revision_standings
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_standings_of_heads();
--> statement-breakpoint
CREATE TRIGGER keep_heads_recipe AFTER UPDATE ON recipes
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_recipes_of_heads();
--> statement-breakpoint
CREATE TRIGGER keep_heads_chemistry AFTER INSERT ON chemistries
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_chemistries_of_heads();
--> statement-breakpoint
CREATE TRIGGER keep_heads_chemistry_anew AFTER UPDATE ON chemistries
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_chemistries_of_heads();
--> statement-breakpoint
CREATE TRIGGER keep_words AFTER INSERT ON note_texts
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_notes_of_words();
--> statement-breakpoint
CREATE TRIGGER keep_words_removed AFTER UPDATE ON note_texts
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_notes_of_words();
--> statement-breakpoint
CREATE TRIGGER keep_words AFTER INSERT ON note_edits
  REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION keep_notes_of_words();
--> statement-breakpoint
-- All of it from the record: for what was there before, and for whoever doubts what is kept.
CREATE FUNCTION keep_library_anew() RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  DELETE FROM recipe_heads;
  DELETE FROM recipe_words;
  DELETE FROM spellings;
  INSERT INTO recipe_heads (recipe_id, "revision_id", "name_key", "owner_id", "shown_to", "use", "cone_low_place", "cone_high_place", "atmosphere", "surface_key", "melt_digest", "materials", "is", "for", "approved_until", "unity_li2o", "unity_na2o", "unity_k2o", "unity_mgo", "unity_cao", "unity_sro", "unity_bao", "unity_zno", "unity_pbo", "unity_b2o3", "unity_al2o3", "unity_sio2")
  SELECT recipe_id, "revision_id", "name_key", "owner_id", "shown_to", "use", "cone_low_place", "cone_high_place", "atmosphere", "surface_key", "melt_digest", "materials", "is", "for", "approved_until", "unity_li2o", "unity_na2o", "unity_k2o", "unity_mgo", "unity_cao", "unity_sro", "unity_bao", "unity_zno", "unity_pbo", "unity_b2o3", "unity_al2o3", "unity_sio2"
  FROM recipe_heads_derived ORDER BY recipe_id;
  INSERT INTO recipe_words (recipe_id, words) SELECT recipe_id, words FROM recipe_words_derived ORDER BY recipe_id;
  INSERT INTO spellings (word) SELECT DISTINCT word FROM spellings_derived ORDER BY word;
END $$;
--> statement-breakpoint
SELECT keep_library_anew();
