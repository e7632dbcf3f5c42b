CREATE TABLE "handout_revisions" (
	"handout_id" uuid NOT NULL,
	"position" smallint NOT NULL,
	"revision_id" uuid NOT NULL,
	CONSTRAINT "handout_revisions_handout_id_position_pk" PRIMARY KEY("handout_id","position"),
	CONSTRAINT "handout_revisions_position_counts" CHECK ("handout_revisions"."position" between 0 and 199)
);
--> statement-breakpoint
CREATE TABLE "handouts" (
	"id" uuid PRIMARY KEY NOT NULL,
	"family_id" uuid,
	"region" text NOT NULL,
	"token_hash" text NOT NULL,
	"made_by" uuid NOT NULL,
	"made_at" timestamp (3) with time zone NOT NULL,
	"revoked_at" timestamp (3) with time zone,
	"revoked_by" uuid,
	CONSTRAINT "handouts_token_unique" UNIQUE("token_hash"),
	CONSTRAINT "handouts_region_length" CHECK (char_length("handouts"."region") between 0 and 60),
	CONSTRAINT "handouts_token_hashed" CHECK ("handouts"."token_hash" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "handouts_revoked_by_somebody" CHECK (("handouts"."revoked_at" is null) = ("handouts"."revoked_by" is null))
);
--> statement-breakpoint
CREATE TABLE "import_withdrawals" (
	"import_id" uuid PRIMARY KEY NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "import_withdrawals_why_length" CHECK (char_length("import_withdrawals"."why") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "imported_things" (
	"import_id" uuid NOT NULL,
	"noun" text NOT NULL,
	"thing_id" uuid NOT NULL,
	CONSTRAINT "imported_things_noun_thing_id_pk" PRIMARY KEY("noun","thing_id"),
	CONSTRAINT "imported_things_noun_known" CHECK ("imported_things"."noun" in ('material', 'analysis', 'recipe', 'note', 'tile', 'photo'))
);
--> statement-breakpoint
CREATE TABLE "imports" (
	"id" uuid PRIMARY KEY NOT NULL,
	"file_name" text NOT NULL,
	"digest" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "imports_file_name_length" CHECK (char_length("imports"."file_name") between 0 and 200),
	CONSTRAINT "imports_digest_is_digest" CHECK ("imports"."digest" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "recoveries" (
	"id" uuid PRIMARY KEY NOT NULL,
	"person_id" uuid NOT NULL,
	"token_hash" text NOT NULL,
	"made_by" uuid,
	"made_at" timestamp (3) with time zone NOT NULL,
	"expires_at" timestamp (3) with time zone NOT NULL,
	"used_at" timestamp (3) with time zone,
	"revoked_at" timestamp (3) with time zone,
	CONSTRAINT "recoveries_token_unique" UNIQUE("token_hash"),
	CONSTRAINT "recoveries_token_hashed" CHECK ("recoveries"."token_hash" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "preferences" (
	"person_id" uuid PRIMARY KEY NOT NULL,
	"region" text DEFAULT '' NOT NULL,
	"weight" text DEFAULT 'g' NOT NULL,
	"temperature" text DEFAULT 'C' NOT NULL,
	"heat" text DEFAULT 'cone' NOT NULL,
	"theme" text DEFAULT 'system' NOT NULL,
	"unity" text DEFAULT 'fluxes' NOT NULL,
	"iron" text DEFAULT 'Fe2O3' NOT NULL,
	"boron" text DEFAULT 'apart' NOT NULL,
	CONSTRAINT "preferences_region_length" CHECK (char_length("preferences"."region") between 0 and 60),
	CONSTRAINT "preferences_weight_known" CHECK ("preferences"."weight" in ('g', 'lb')),
	CONSTRAINT "preferences_temperature_known" CHECK ("preferences"."temperature" in ('C', 'F')),
	CONSTRAINT "preferences_heat_known" CHECK ("preferences"."heat" in ('cone', 'temperature')),
	CONSTRAINT "preferences_theme_known" CHECK ("preferences"."theme" in ('system', 'light', 'dark')),
	CONSTRAINT "preferences_unity_known" CHECK ("preferences"."unity" in ('fluxes', 'fluxes-and-colour')),
	CONSTRAINT "preferences_iron_known" CHECK ("preferences"."iron" in ('Fe2O3', 'FeO')),
	CONSTRAINT "preferences_boron_known" CHECK ("preferences"."boron" in ('apart', 'with-alumina', 'with-silica'))
);
--> statement-breakpoint
CREATE TABLE "saved_searches" (
	"id" uuid PRIMARY KEY NOT NULL,
	"person_id" uuid NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"query" text NOT NULL,
	"saved_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "saved_searches_name_unique" UNIQUE("person_id","name_key"),
	CONSTRAINT "saved_searches_name_length" CHECK (char_length("saved_searches"."name") between 1 and 80),
	CONSTRAINT "saved_searches_query_length" CHECK (char_length("saved_searches"."query") between 1 and 2000),
	CONSTRAINT "saved_searches_query_shape" CHECK ("saved_searches"."query" !~ '[[:space:]#]')
);
--> statement-breakpoint
ALTER TABLE "handout_revisions" ADD CONSTRAINT "handout_revisions_handout_id_handouts_id_fk" FOREIGN KEY ("handout_id") REFERENCES "public"."handouts"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "handout_revisions" ADD CONSTRAINT "handout_revisions_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "handouts" ADD CONSTRAINT "handouts_family_id_families_id_fk" FOREIGN KEY ("family_id") REFERENCES "public"."families"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "handouts" ADD CONSTRAINT "handouts_made_by_people_id_fk" FOREIGN KEY ("made_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "handouts" ADD CONSTRAINT "handouts_revoked_by_people_id_fk" FOREIGN KEY ("revoked_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "import_withdrawals" ADD CONSTRAINT "import_withdrawals_import_id_imports_id_fk" FOREIGN KEY ("import_id") REFERENCES "public"."imports"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "import_withdrawals" ADD CONSTRAINT "import_withdrawals_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "imported_things" ADD CONSTRAINT "imported_things_import_id_imports_id_fk" FOREIGN KEY ("import_id") REFERENCES "public"."imports"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "imports" ADD CONSTRAINT "imports_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recoveries" ADD CONSTRAINT "recoveries_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recoveries" ADD CONSTRAINT "recoveries_made_by_people_id_fk" FOREIGN KEY ("made_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "preferences" ADD CONSTRAINT "preferences_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "saved_searches" ADD CONSTRAINT "saved_searches_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "handout_revisions_of_revision" ON "handout_revisions" USING btree ("revision_id");--> statement-breakpoint
CREATE INDEX "handouts_of_family" ON "handouts" USING btree ("family_id");--> statement-breakpoint
CREATE INDEX "imported_things_of_import" ON "imported_things" USING btree ("import_id");--> statement-breakpoint
CREATE INDEX "imports_of_digest" ON "imports" USING btree ("digest");--> statement-breakpoint
CREATE INDEX "recoveries_of_person" ON "recoveries" USING btree ("person_id");--> statement-breakpoint
DO $$
DECLARE
  append_only text;
BEGIN
  FOREACH append_only IN ARRAY ARRAY[
    'handout_revisions', 'imports', 'imported_things', 'import_withdrawals'
  ] LOOP
    EXECUTE format('CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', append_only);
    EXECUTE format('CREATE TRIGGER keep_table BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', append_only);
  END LOOP;
END $$;
