CREATE TABLE "answers" (
	"person_id" uuid NOT NULL,
	"key" text NOT NULL,
	"request" text NOT NULL,
	"status" smallint,
	"headers" jsonb,
	"body" text,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "answers_person_id_key_pk" PRIMARY KEY("person_id","key"),
	CONSTRAINT "answers_key_length" CHECK (char_length("answers"."key") between 1 and 200),
	CONSTRAINT "answers_request_is_digest" CHECK ("answers"."request" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "events" (
	"seq" bigint PRIMARY KEY NOT NULL,
	"id" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	"by" uuid,
	"kind" text NOT NULL,
	"subject" text NOT NULL,
	"subject_id" uuid NOT NULL,
	"text" text NOT NULL,
	"previous" text NOT NULL,
	"hash" text NOT NULL,
	CONSTRAINT "events_id_unique" UNIQUE("id"),
	CONSTRAINT "events_seq_counts_from_one" CHECK ("events"."seq" > 0),
	CONSTRAINT "events_kind_length" CHECK (char_length("events"."kind") between 1 and 60),
	CONSTRAINT "events_subject_length" CHECK (char_length("events"."subject") between 1 and 40),
	CONSTRAINT "events_text_length" CHECK (char_length("events"."text") between 2 and 20000),
	CONSTRAINT "events_hash_is_digest" CHECK ("events"."hash" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "events_previous_is_digest" CHECK ("events"."previous" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "analyses" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"source" text NOT NULL,
	"measured_on" date,
	"basis" text NOT NULL,
	"formula" text,
	"ideal" boolean NOT NULL,
	"loss_percent" numeric(9, 6),
	"loss_plus_minus" numeric(9, 6),
	"digest" text NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "analyses_of_one_material" UNIQUE("material_id","id"),
	CONSTRAINT "analyses_source_length" CHECK (char_length("analyses"."source") between 1 and 300),
	CONSTRAINT "analyses_formula_length" CHECK (char_length("analyses"."formula") between 1 and 200),
	CONSTRAINT "analyses_basis_known" CHECK ("analyses"."basis" in ('asReceived', 'calcined')),
	CONSTRAINT "analyses_loss_possible" CHECK ("analyses"."loss_percent" between -50 and 100),
	CONSTRAINT "analyses_loss_doubt_possible" CHECK ("analyses"."loss_plus_minus" between 0 and 100),
	CONSTRAINT "analyses_digest_is_digest" CHECK ("analyses"."digest" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "analyses_in_use" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"analysis_id" uuid NOT NULL,
	"since" timestamp (3) with time zone NOT NULL,
	"by" uuid NOT NULL,
	"why" text NOT NULL,
	CONSTRAINT "analyses_in_use_why_length" CHECK (char_length("analyses_in_use"."why") between 0 and 1000)
);
--> statement-breakpoint
CREATE TABLE "analysis_oxides" (
	"analysis_id" uuid NOT NULL,
	"oxide" text NOT NULL,
	"percent" numeric(9, 6) NOT NULL,
	"plus_minus" numeric(9, 6),
	CONSTRAINT "analysis_oxides_analysis_id_oxide_pk" PRIMARY KEY("analysis_id","oxide"),
	CONSTRAINT "analysis_oxides_oxide_shape" CHECK ("analysis_oxides"."oxide" ~ '^[A-Z][A-Za-z0-9]{1,9}$'),
	CONSTRAINT "analysis_oxides_percent_possible" CHECK ("analysis_oxides"."percent" between 0 and 400),
	CONSTRAINT "analysis_oxides_doubt_possible" CHECK ("analysis_oxides"."plus_minus" between 0 and 100)
);
--> statement-breakpoint
CREATE TABLE "discontinuations" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"still_sold" boolean NOT NULL,
	"since" date NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "discontinuations_why_length" CHECK (char_length("discontinuations"."why") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "material_names" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"region" text NOT NULL,
	"caution" text NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "material_names_name_length" CHECK (char_length("material_names"."name") between 1 and 80),
	CONSTRAINT "material_names_region_length" CHECK (char_length("material_names"."region") between 1 and 60),
	CONSTRAINT "material_names_caution_length" CHECK (char_length("material_names"."caution") between 0 and 500)
);
--> statement-breakpoint
CREATE TABLE "materials" (
	"id" uuid PRIMARY KEY NOT NULL,
	"slug" text NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"region" text NOT NULL,
	"kind" text NOT NULL,
	"about" text NOT NULL,
	"hazards" text[] NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "materials_slug_unique" UNIQUE("slug"),
	CONSTRAINT "materials_name_unique" UNIQUE("name_key"),
	CONSTRAINT "materials_slug_shape" CHECK ("materials"."slug" ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
	CONSTRAINT "materials_slug_length" CHECK (char_length("materials"."slug") between 1 and 80),
	CONSTRAINT "materials_name_length" CHECK (char_length("materials"."name") between 1 and 80),
	CONSTRAINT "materials_region_length" CHECK (char_length("materials"."region") between 0 and 60),
	CONSTRAINT "materials_kind_length" CHECK (char_length("materials"."kind") between 1 and 40),
	CONSTRAINT "materials_about_length" CHECK (char_length("materials"."about") between 0 and 4000),
	CONSTRAINT "materials_hazards_few" CHECK (cardinality("materials"."hazards") <= 20)
);
--> statement-breakpoint
CREATE TABLE "note_texts" (
	"note_id" uuid PRIMARY KEY NOT NULL,
	"text" text,
	"removed_at" timestamp (3) with time zone,
	"removed_by" uuid,
	"removed_why" text,
	CONSTRAINT "note_texts_text_length" CHECK (char_length("note_texts"."text") between 1 and 8000),
	CONSTRAINT "note_texts_there_or_removed" CHECK (("note_texts"."text" is null) = ("note_texts"."removed_at" is not null))
);
--> statement-breakpoint
CREATE TABLE "notes" (
	"id" uuid PRIMARY KEY NOT NULL,
	"recipe_id" uuid NOT NULL,
	"revision_id" uuid NOT NULL,
	"anchor" text NOT NULL,
	"anchor_key" text,
	"snapshot" jsonb NOT NULL,
	"text_digest" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "notes_anchor_known" CHECK ("notes"."anchor" in ('whole', 'line', 'oxide', 'tile')),
	CONSTRAINT "notes_anchor_key_length" CHECK (char_length("notes"."anchor_key") between 1 and 80),
	CONSTRAINT "notes_whole_has_no_key" CHECK (("notes"."anchor" = 'whole') = ("notes"."anchor_key" is null)),
	CONSTRAINT "notes_text_digest_is_digest" CHECK ("notes"."text_digest" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "invites" (
	"id" uuid PRIMARY KEY NOT NULL,
	"token_hash" text NOT NULL,
	"role" text NOT NULL,
	"made_by" uuid,
	"made_at" timestamp (3) with time zone NOT NULL,
	"expires_at" timestamp (3) with time zone NOT NULL,
	"used_by" uuid,
	"used_at" timestamp (3) with time zone,
	"revoked_at" timestamp (3) with time zone,
	CONSTRAINT "invites_token_unique" UNIQUE("token_hash"),
	CONSTRAINT "invites_token_hashed" CHECK ("invites"."token_hash" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "invites_role_known" CHECK ("invites"."role" in ('member', 'reviewer', 'manager')),
	CONSTRAINT "invites_used_by_somebody" CHECK (("invites"."used_at" is null) = ("invites"."used_by" is null))
);
--> statement-breakpoint
CREATE TABLE "people" (
	"id" uuid PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"email" text,
	"email_key" text COLLATE "C",
	"password_hash" text,
	"role" text NOT NULL,
	"joined_at" timestamp (3) with time zone NOT NULL,
	"removed_at" timestamp (3) with time zone,
	"removed_by" uuid,
	"removed_why" text,
	CONSTRAINT "people_name_unique" UNIQUE("name_key"),
	CONSTRAINT "people_email_unique" UNIQUE("email_key"),
	CONSTRAINT "people_name_length" CHECK (char_length("people"."name") between 1 and 80),
	CONSTRAINT "people_email_length" CHECK (char_length("people"."email") between 3 and 254),
	CONSTRAINT "people_role_known" CHECK ("people"."role" in ('member', 'reviewer', 'manager')),
	CONSTRAINT "people_signs_in_or_is_removed" CHECK (("people"."removed_at" is null) = ("people"."email" is not null and "people"."password_hash" is not null))
);
--> statement-breakpoint
CREATE TABLE "sessions" (
	"id" text PRIMARY KEY NOT NULL,
	"user_id" uuid NOT NULL,
	"expires_at" timestamp (3) with time zone NOT NULL,
	"started_at" timestamp (3) with time zone NOT NULL,
	"browser" text NOT NULL,
	CONSTRAINT "sessions_id_hashed" CHECK ("sessions"."id" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "sessions_browser_length" CHECK (char_length("sessions"."browser") between 0 and 200)
);
--> statement-breakpoint
CREATE TABLE "sign_in_attempts" (
	"id" uuid PRIMARY KEY NOT NULL,
	"key" text NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "sign_in_attempts_key_hashed" CHECK ("sign_in_attempts"."key" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "chemistries" (
	"revision_id" uuid PRIMARY KEY NOT NULL,
	"engine" text NOT NULL,
	"loss_percent" double precision,
	"silica_to_alumina" double precision,
	"alkali_share" double precision,
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
	"stops" smallint NOT NULL,
	"detail" jsonb NOT NULL,
	CONSTRAINT "chemistries_engine_length" CHECK (char_length("chemistries"."engine") between 1 and 20),
	CONSTRAINT "chemistries_stops_counts" CHECK ("chemistries"."stops" between 0 and 1000)
);
--> statement-breakpoint
CREATE TABLE "recipes" (
	"id" uuid PRIMARY KEY NOT NULL,
	"slug" text NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"owner_id" uuid NOT NULL,
	"head" integer NOT NULL,
	"shown_to" text NOT NULL,
	"forked_from" uuid,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "recipes_slug_unique" UNIQUE("slug"),
	CONSTRAINT "recipes_name_unique" UNIQUE("name_key"),
	CONSTRAINT "recipes_slug_shape" CHECK ("recipes"."slug" ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
	CONSTRAINT "recipes_slug_length" CHECK (char_length("recipes"."slug") between 1 and 80),
	CONSTRAINT "recipes_name_length" CHECK (char_length("recipes"."name") between 1 and 80),
	CONSTRAINT "recipes_head_counts" CHECK ("recipes"."head" between 1 and 1000000),
	CONSTRAINT "recipes_shown_to_known" CHECK ("recipes"."shown_to" in ('private', 'studio', 'public'))
);
--> statement-breakpoint
CREATE TABLE "revision_lines" (
	"revision_id" uuid NOT NULL,
	"position" smallint NOT NULL,
	"part" text NOT NULL,
	"material_id" uuid NOT NULL,
	"analysis_id" uuid,
	"amount" numeric(13, 6) NOT NULL,
	CONSTRAINT "revision_lines_revision_id_position_pk" PRIMARY KEY("revision_id","position"),
	CONSTRAINT "revision_lines_position_counts" CHECK ("revision_lines"."position" between 0 and 63),
	CONSTRAINT "revision_lines_part_known" CHECK ("revision_lines"."part" in ('base', 'addition')),
	CONSTRAINT "revision_lines_amount_weighable" CHECK ("revision_lines"."amount" > 0 and "revision_lines"."amount" <= 1000000),
	CONSTRAINT "revision_lines_base_is_analysed" CHECK ("revision_lines"."part" = 'addition' or "revision_lines"."analysis_id" is not null)
);
--> statement-breakpoint
CREATE TABLE "revisions" (
	"id" uuid PRIMARY KEY NOT NULL,
	"recipe_id" uuid NOT NULL,
	"number" integer NOT NULL,
	"based_on" integer,
	"author_id" uuid NOT NULL,
	"use" text NOT NULL,
	"cone_low" text NOT NULL,
	"cone_high" text NOT NULL,
	"cone_low_place" smallint NOT NULL,
	"cone_high_place" smallint NOT NULL,
	"atmosphere" text NOT NULL,
	"surface" text NOT NULL,
	"about" text NOT NULL,
	"message" text NOT NULL,
	"melt_digest" text NOT NULL,
	"digest" text NOT NULL,
	"published_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "revisions_number_unique" UNIQUE("recipe_id","number"),
	CONSTRAINT "revisions_number_counts" CHECK ("revisions"."number" between 1 and 1000000),
	CONSTRAINT "revisions_based_on_earlier" CHECK ("revisions"."based_on" between 1 and "revisions"."number" - 1),
	CONSTRAINT "revisions_use_known" CHECK ("revisions"."use" in ('functional', 'decorative')),
	CONSTRAINT "revisions_cone_shape" CHECK ("revisions"."cone_low" ~ '^0?[0-9]{1,2}(½)?$' and "revisions"."cone_high" ~ '^0?[0-9]{1,2}(½)?$'),
	CONSTRAINT "revisions_cones_in_order" CHECK ("revisions"."cone_low_place" between 0 and "revisions"."cone_high_place" and "revisions"."cone_high_place" <= 100),
	CONSTRAINT "revisions_atmosphere_known" CHECK ("revisions"."atmosphere" in ('oxidation', 'neutral', 'reduction', 'salt', 'soda', 'wood', 'raku')),
	CONSTRAINT "revisions_surface_length" CHECK (char_length("revisions"."surface") between 0 and 60),
	CONSTRAINT "revisions_about_length" CHECK (char_length("revisions"."about") between 0 and 8000),
	CONSTRAINT "revisions_message_length" CHECK (char_length("revisions"."message") between 0 and 500),
	CONSTRAINT "revisions_melt_digest_is_digest" CHECK ("revisions"."melt_digest" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "revisions_digest_is_digest" CHECK ("revisions"."digest" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "withdrawals" (
	"id" uuid PRIMARY KEY NOT NULL,
	"recipe_id" uuid NOT NULL,
	"withdrawn" boolean NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "withdrawals_why_length" CHECK (char_length("withdrawals"."why") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "studios" (
	"only" integer PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"shows_public" boolean NOT NULL,
	CONSTRAINT "studios_is_one" CHECK ("studios"."only" = 1),
	CONSTRAINT "studios_name_length" CHECK (char_length("studios"."name") between 1 and 80)
);
--> statement-breakpoint
CREATE TABLE "photos" (
	"id" uuid PRIMARY KEY NOT NULL,
	"tile_id" uuid NOT NULL,
	"sha256" text NOT NULL,
	"alt" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "photos_alt_length" CHECK (char_length("photos"."alt") between 0 and 500)
);
--> statement-breakpoint
CREATE TABLE "picture_bytes" (
	"sha256" text NOT NULL,
	"width" smallint NOT NULL,
	"bytes" "bytea",
	"removed_at" timestamp (3) with time zone,
	"removed_by" uuid,
	"removed_why" text,
	CONSTRAINT "picture_bytes_sha256_width_pk" PRIMARY KEY("sha256","width"),
	CONSTRAINT "picture_bytes_width_possible" CHECK ("picture_bytes"."width" between 0 and 2400),
	CONSTRAINT "picture_bytes_there_or_removed" CHECK (("picture_bytes"."bytes" is null) = ("picture_bytes"."removed_at" is not null))
);
--> statement-breakpoint
CREATE TABLE "pictures" (
	"sha256" text PRIMARY KEY NOT NULL,
	"width" integer NOT NULL,
	"height" integer NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "pictures_sha256_is_digest" CHECK ("pictures"."sha256" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "pictures_size_possible" CHECK ("pictures"."width" between 1 and 2400 and "pictures"."height" between 1 and 2400)
);
--> statement-breakpoint
CREATE TABLE "tile_withdrawals" (
	"tile_id" uuid PRIMARY KEY NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "tile_withdrawals_why_length" CHECK (char_length("tile_withdrawals"."why") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "tiles" (
	"id" uuid PRIMARY KEY NOT NULL,
	"revision_id" uuid NOT NULL,
	"cone" text NOT NULL,
	"atmosphere" text NOT NULL,
	"clay" text NOT NULL,
	"fired_on" date,
	"remark" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "tiles_cone_shape" CHECK ("tiles"."cone" ~ '^0?[0-9]{1,2}(½)?$'),
	CONSTRAINT "tiles_atmosphere_known" CHECK ("tiles"."atmosphere" in ('oxidation', 'neutral', 'reduction', 'salt', 'soda', 'wood', 'raku')),
	CONSTRAINT "tiles_clay_length" CHECK (char_length("tiles"."clay") between 0 and 80),
	CONSTRAINT "tiles_remark_length" CHECK (char_length("tiles"."remark") between 0 and 2000)
);
--> statement-breakpoint
ALTER TABLE "answers" ADD CONSTRAINT "answers_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "events" ADD CONSTRAINT "events_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "analyses" ADD CONSTRAINT "analyses_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "analyses" ADD CONSTRAINT "analyses_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "analyses_in_use" ADD CONSTRAINT "analyses_in_use_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "analyses_in_use" ADD CONSTRAINT "analyses_in_use_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "analyses_in_use" ADD CONSTRAINT "analyses_in_use_of_this_material" FOREIGN KEY ("material_id","analysis_id") REFERENCES "public"."analyses"("material_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "analysis_oxides" ADD CONSTRAINT "analysis_oxides_analysis_id_analyses_id_fk" FOREIGN KEY ("analysis_id") REFERENCES "public"."analyses"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "discontinuations" ADD CONSTRAINT "discontinuations_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "discontinuations" ADD CONSTRAINT "discontinuations_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "material_names" ADD CONSTRAINT "material_names_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "material_names" ADD CONSTRAINT "material_names_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "materials" ADD CONSTRAINT "materials_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_texts" ADD CONSTRAINT "note_texts_note_id_notes_id_fk" FOREIGN KEY ("note_id") REFERENCES "public"."notes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_texts" ADD CONSTRAINT "note_texts_removed_by_people_id_fk" FOREIGN KEY ("removed_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "notes" ADD CONSTRAINT "notes_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "notes" ADD CONSTRAINT "notes_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "notes" ADD CONSTRAINT "notes_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "invites" ADD CONSTRAINT "invites_made_by_people_id_fk" FOREIGN KEY ("made_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "invites" ADD CONSTRAINT "invites_used_by_people_id_fk" FOREIGN KEY ("used_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "sessions" ADD CONSTRAINT "sessions_user_id_people_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "chemistries" ADD CONSTRAINT "chemistries_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recipes" ADD CONSTRAINT "recipes_owner_id_people_id_fk" FOREIGN KEY ("owner_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recipes" ADD CONSTRAINT "recipes_forked_from_revisions_id_fk" FOREIGN KEY ("forked_from") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revision_lines" ADD CONSTRAINT "revision_lines_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revision_lines" ADD CONSTRAINT "revision_lines_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revision_lines" ADD CONSTRAINT "revision_lines_analysis_of_this_material" FOREIGN KEY ("material_id","analysis_id") REFERENCES "public"."analyses"("material_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revisions" ADD CONSTRAINT "revisions_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revisions" ADD CONSTRAINT "revisions_author_id_people_id_fk" FOREIGN KEY ("author_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "withdrawals" ADD CONSTRAINT "withdrawals_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "withdrawals" ADD CONSTRAINT "withdrawals_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photos" ADD CONSTRAINT "photos_tile_id_tiles_id_fk" FOREIGN KEY ("tile_id") REFERENCES "public"."tiles"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photos" ADD CONSTRAINT "photos_sha256_pictures_sha256_fk" FOREIGN KEY ("sha256") REFERENCES "public"."pictures"("sha256") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "photos" ADD CONSTRAINT "photos_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "picture_bytes" ADD CONSTRAINT "picture_bytes_sha256_pictures_sha256_fk" FOREIGN KEY ("sha256") REFERENCES "public"."pictures"("sha256") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "picture_bytes" ADD CONSTRAINT "picture_bytes_removed_by_people_id_fk" FOREIGN KEY ("removed_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pictures" ADD CONSTRAINT "pictures_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tile_withdrawals" ADD CONSTRAINT "tile_withdrawals_tile_id_tiles_id_fk" FOREIGN KEY ("tile_id") REFERENCES "public"."tiles"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tile_withdrawals" ADD CONSTRAINT "tile_withdrawals_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "events_of_subject" ON "events" USING btree ("subject_id","seq");--> statement-breakpoint
CREATE INDEX "analyses_in_use_of_material" ON "analyses_in_use" USING btree ("material_id","id");--> statement-breakpoint
CREATE INDEX "discontinuations_of_material" ON "discontinuations" USING btree ("material_id","id");--> statement-breakpoint
CREATE INDEX "material_names_of_material" ON "material_names" USING btree ("material_id");--> statement-breakpoint
CREATE INDEX "material_names_by_key" ON "material_names" USING btree ("name_key");--> statement-breakpoint
CREATE INDEX "notes_of_recipe" ON "notes" USING btree ("recipe_id","id");--> statement-breakpoint
CREATE INDEX "sessions_of_person" ON "sessions" USING btree ("user_id");--> statement-breakpoint
CREATE INDEX "sign_in_attempts_of_key" ON "sign_in_attempts" USING btree ("key","at");--> statement-breakpoint
CREATE INDEX "chemistries_of_engine" ON "chemistries" USING btree ("engine");--> statement-breakpoint
CREATE INDEX "recipes_in_order" ON "recipes" USING btree ("name_key","id");--> statement-breakpoint
CREATE INDEX "recipes_of_owner" ON "recipes" USING btree ("owner_id");--> statement-breakpoint
CREATE INDEX "recipes_forked_from" ON "recipes" USING btree ("forked_from");--> statement-breakpoint
CREATE INDEX "revision_lines_of_material" ON "revision_lines" USING btree ("material_id");--> statement-breakpoint
CREATE INDEX "revisions_of_melt" ON "revisions" USING btree ("melt_digest");--> statement-breakpoint
CREATE INDEX "withdrawals_of_recipe" ON "withdrawals" USING btree ("recipe_id","id");--> statement-breakpoint
CREATE INDEX "photos_of_tile" ON "photos" USING btree ("tile_id","id");--> statement-breakpoint
CREATE INDEX "photos_of_picture" ON "photos" USING btree ("sha256");--> statement-breakpoint
CREATE INDEX "tiles_of_revision" ON "tiles" USING btree ("revision_id","id");