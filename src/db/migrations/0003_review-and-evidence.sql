CREATE TABLE "bodies" (
	"id" uuid PRIMARY KEY NOT NULL,
	"slug" text NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bodies_slug_unique" UNIQUE("slug"),
	CONSTRAINT "bodies_name_unique" UNIQUE("name_key"),
	CONSTRAINT "bodies_slug_shape" CHECK ("bodies"."slug" ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
	CONSTRAINT "bodies_slug_length" CHECK (char_length("bodies"."slug") between 1 and 80),
	CONSTRAINT "bodies_name_length" CHECK (char_length("bodies"."name") between 1 and 80)
);
--> statement-breakpoint
CREATE TABLE "body_sheets" (
	"id" uuid PRIMARY KEY NOT NULL,
	"body_id" uuid NOT NULL,
	"cone_low" text NOT NULL,
	"cone_high" text NOT NULL,
	"cone_low_place" smallint NOT NULL,
	"cone_high_place" smallint NOT NULL,
	"absorption_percent" numeric(6, 3),
	"absorption_source" text NOT NULL,
	"expansion" numeric(6, 3),
	"expansion_from_celsius" integer,
	"expansion_to_celsius" integer,
	"expansion_source" text NOT NULL,
	"colour" text NOT NULL,
	"about" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "body_sheets_cone_shape" CHECK ("body_sheets"."cone_low" ~ '^0?[0-9]{1,2}(½)?$' and "body_sheets"."cone_high" ~ '^0?[0-9]{1,2}(½)?$'),
	CONSTRAINT "body_sheets_cones_in_order" CHECK ("body_sheets"."cone_low_place" between 0 and "body_sheets"."cone_high_place" and "body_sheets"."cone_high_place" <= 100),
	CONSTRAINT "body_sheets_absorption_possible" CHECK ("body_sheets"."absorption_percent" between 0 and 40),
	CONSTRAINT "body_sheets_absorption_has_source" CHECK ("body_sheets"."absorption_percent" is null or "body_sheets"."absorption_source" <> ''),
	CONSTRAINT "body_sheets_absorption_source_length" CHECK (char_length("body_sheets"."absorption_source") between 0 and 300),
	CONSTRAINT "body_sheets_expansion_possible" CHECK ("body_sheets"."expansion" between 0 and 30),
	CONSTRAINT "body_sheets_expansion_has_range" CHECK ("body_sheets"."expansion" is null or ("body_sheets"."expansion_from_celsius" is not null and "body_sheets"."expansion_to_celsius" is not null)),
	CONSTRAINT "body_sheets_expansion_range_possible" CHECK ("body_sheets"."expansion_from_celsius" between -50 and 1000 and "body_sheets"."expansion_to_celsius" between "body_sheets"."expansion_from_celsius" + 1 and 1300),
	CONSTRAINT "body_sheets_expansion_source_length" CHECK (char_length("body_sheets"."expansion_source") between 0 and 300),
	CONSTRAINT "body_sheets_colour_length" CHECK (char_length("body_sheets"."colour") between 0 and 60),
	CONSTRAINT "body_sheets_about_length" CHECK (char_length("body_sheets"."about") between 0 and 4000)
);
--> statement-breakpoint
CREATE TABLE "bucket_changes" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bucket_id" uuid NOT NULL,
	"is" text NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bucket_changes_is_known" CHECK ("bucket_changes"."is" in ('open', 'hold', 'empty')),
	CONSTRAINT "bucket_changes_why_length" CHECK (char_length("bucket_changes"."why") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "buckets" (
	"id" uuid PRIMARY KEY NOT NULL,
	"revision_id" uuid NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"litres" numeric(8, 3) NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "buckets_name_length" CHECK (char_length("buckets"."name") between 1 and 80),
	CONSTRAINT "buckets_litres_possible" CHECK ("buckets"."litres" > 0 and "buckets"."litres" <= 10000)
);
--> statement-breakpoint
CREATE TABLE "firings" (
	"id" uuid PRIMARY KEY NOT NULL,
	"kiln_id" uuid NOT NULL,
	"kind" text NOT NULL,
	"cone" text NOT NULL,
	"started_at" timestamp (3) with time zone NOT NULL,
	"programme" jsonb NOT NULL,
	"remark" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "firings_kind_known" CHECK ("firings"."kind" in ('oxidation', 'neutral', 'reduction', 'salt', 'soda', 'wood', 'raku', 'bisque')),
	CONSTRAINT "firings_cone_shape" CHECK ("firings"."cone" ~ '^0?[0-9]{1,2}(½)?$'),
	CONSTRAINT "firings_remark_length" CHECK (char_length("firings"."remark") between 0 and 4000)
);
--> statement-breakpoint
CREATE TABLE "kilns" (
	"id" uuid PRIMARY KEY NOT NULL,
	"slug" text NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"about" text NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "kilns_slug_unique" UNIQUE("slug"),
	CONSTRAINT "kilns_name_unique" UNIQUE("name_key"),
	CONSTRAINT "kilns_slug_shape" CHECK ("kilns"."slug" ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
	CONSTRAINT "kilns_slug_length" CHECK (char_length("kilns"."slug") between 1 and 80),
	CONSTRAINT "kilns_name_length" CHECK (char_length("kilns"."name") between 1 and 80),
	CONSTRAINT "kilns_about_length" CHECK (char_length("kilns"."about") between 0 and 2000)
);
--> statement-breakpoint
CREATE TABLE "witness_cones" (
	"firing_id" uuid NOT NULL,
	"position" smallint NOT NULL,
	"cone" text NOT NULL,
	"bend_degrees" integer NOT NULL,
	"place" text NOT NULL,
	CONSTRAINT "witness_cones_firing_id_position_pk" PRIMARY KEY("firing_id","position"),
	CONSTRAINT "witness_cones_position_counts" CHECK ("witness_cones"."position" between 0 and 31),
	CONSTRAINT "witness_cones_cone_shape" CHECK ("witness_cones"."cone" ~ '^0?[0-9]{1,2}(½)?$'),
	CONSTRAINT "witness_cones_bend_possible" CHECK ("witness_cones"."bend_degrees" between 0 and 180),
	CONSTRAINT "witness_cones_place_length" CHECK (char_length("witness_cones"."place") between 0 and 80)
);
--> statement-breakpoint
CREATE TABLE "lots" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"supplier_id" uuid NOT NULL,
	"analysis_id" uuid,
	"pack_grams" numeric(12, 3) NOT NULL,
	"pack_price" numeric(12, 4) NOT NULL,
	"currency" text NOT NULL,
	"grams" numeric(12, 3) NOT NULL,
	"mark" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "lots_pack_grams_weighable" CHECK ("lots"."pack_grams" > 0 and "lots"."pack_grams" <= 100000000),
	CONSTRAINT "lots_pack_price_payable" CHECK ("lots"."pack_price" between 0 and 10000000),
	CONSTRAINT "lots_currency_shape" CHECK ("lots"."currency" ~ '^[A-Z]{3}$'),
	CONSTRAINT "lots_grams_weighable" CHECK ("lots"."grams" between 0 and 100000000),
	CONSTRAINT "lots_mark_length" CHECK (char_length("lots"."mark") between 0 and 80)
);
--> statement-breakpoint
CREATE TABLE "suppliers" (
	"id" uuid PRIMARY KEY NOT NULL,
	"slug" text NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"about" text NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "suppliers_slug_unique" UNIQUE("slug"),
	CONSTRAINT "suppliers_name_unique" UNIQUE("name_key"),
	CONSTRAINT "suppliers_slug_shape" CHECK ("suppliers"."slug" ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
	CONSTRAINT "suppliers_slug_length" CHECK (char_length("suppliers"."slug") between 1 and 80),
	CONSTRAINT "suppliers_name_length" CHECK (char_length("suppliers"."name") between 1 and 80),
	CONSTRAINT "suppliers_about_length" CHECK (char_length("suppliers"."about") between 0 and 2000)
);
--> statement-breakpoint
CREATE TABLE "note_closings" (
	"note_id" uuid PRIMARY KEY NOT NULL,
	"reply_id" uuid NOT NULL,
	"overruled" boolean NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "note_edits" (
	"id" uuid PRIMARY KEY NOT NULL,
	"note_id" uuid NOT NULL,
	"text" text,
	"text_digest" text NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	"removed_at" timestamp (3) with time zone,
	"removed_by" uuid,
	"removed_why" text,
	CONSTRAINT "note_edits_text_length" CHECK (char_length("note_edits"."text") between 1 and 8000),
	CONSTRAINT "note_edits_text_digest_is_digest" CHECK ("note_edits"."text_digest" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "note_edits_there_or_removed" CHECK (("note_edits"."text" is null) = ("note_edits"."removed_at" is not null))
);
--> statement-breakpoint
CREATE TABLE "note_mentions" (
	"note_id" uuid NOT NULL,
	"person_id" uuid NOT NULL,
	CONSTRAINT "note_mentions_note_id_person_id_pk" PRIMARY KEY("note_id","person_id")
);
--> statement-breakpoint
CREATE TABLE "offer_answers" (
	"offer_id" uuid PRIMARY KEY NOT NULL,
	"accepted" boolean NOT NULL,
	"why" text NOT NULL,
	"revision_id" uuid,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "offer_answers_why_length" CHECK (char_length("offer_answers"."why") between 0 and 2000),
	CONSTRAINT "offer_answers_accepted_became_a_revision" CHECK ("offer_answers"."accepted" = ("offer_answers"."revision_id" is not null)),
	CONSTRAINT "offer_answers_declined_with_reason" CHECK ("offer_answers"."accepted" or "offer_answers"."why" <> '')
);
--> statement-breakpoint
CREATE TABLE "offers" (
	"id" uuid PRIMARY KEY NOT NULL,
	"recipe_id" uuid NOT NULL,
	"revision_id" uuid NOT NULL,
	"base_id" uuid NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "offers_why_length" CHECK (char_length("offers"."why") between 1 and 2000)
);
--> statement-breakpoint
CREATE TABLE "review_requests" (
	"id" uuid PRIMARY KEY NOT NULL,
	"revision_id" uuid NOT NULL,
	"for" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "review_requests_for_known" CHECK ("review_requests"."for" in ('functional', 'decorative'))
);
--> statement-breakpoint
CREATE TABLE "reviews" (
	"id" uuid PRIMARY KEY NOT NULL,
	"recipe_id" uuid NOT NULL,
	"revision_id" uuid NOT NULL,
	"digest" text NOT NULL,
	"verdict" text NOT NULL,
	"for" text NOT NULL,
	"reasons" text NOT NULL,
	"looked_at" jsonb NOT NULL,
	"note_id" uuid,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "reviews_digest_is_digest" CHECK ("reviews"."digest" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "reviews_verdict_known" CHECK ("reviews"."verdict" in ('approve', 'object', 'remark')),
	CONSTRAINT "reviews_for_known" CHECK ("reviews"."for" in ('functional', 'decorative')),
	CONSTRAINT "reviews_reasons_length" CHECK (char_length("reviews"."reasons") between 1 and 4000),
	CONSTRAINT "reviews_object_with_a_note" CHECK (("reviews"."verdict" = 'object') = ("reviews"."note_id" is not null))
);
--> statement-breakpoint
CREATE TABLE "revision_coauthors" (
	"revision_id" uuid NOT NULL,
	"person_id" uuid NOT NULL,
	CONSTRAINT "revision_coauthors_revision_id_person_id_pk" PRIMARY KEY("revision_id","person_id")
);
--> statement-breakpoint
CREATE TABLE "revision_standings" (
	"revision_id" uuid PRIMARY KEY NOT NULL,
	"is" text NOT NULL,
	"for" text,
	"because" text[] NOT NULL,
	"valid_until" timestamp (3) with time zone,
	"basis" uuid[] NOT NULL,
	"unsettled" boolean NOT NULL,
	"marks" integer NOT NULL,
	CONSTRAINT "revision_standings_is_known" CHECK ("revision_standings"."is" in ('draft', 'in review', 'approved', 'needs another look', 'withdrawn')),
	CONSTRAINT "revision_standings_for_known" CHECK ("revision_standings"."for" in ('functional', 'decorative')),
	CONSTRAINT "revision_standings_approved_for_something" CHECK ("revision_standings"."is" <> 'approved' or "revision_standings"."for" is not null)
);
--> statement-breakpoint
CREATE TABLE "share_links" (
	"id" uuid PRIMARY KEY NOT NULL,
	"revision_id" uuid NOT NULL,
	"token_hash" text NOT NULL,
	"made_by" uuid NOT NULL,
	"made_at" timestamp (3) with time zone NOT NULL,
	"revoked_at" timestamp (3) with time zone,
	"revoked_by" uuid,
	CONSTRAINT "share_links_token_unique" UNIQUE("token_hash"),
	CONSTRAINT "share_links_token_hashed" CHECK ("share_links"."token_hash" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
CREATE TABLE "test_results" (
	"test_id" uuid NOT NULL,
	"position" smallint NOT NULL,
	"element" text NOT NULL,
	"qualifier" text NOT NULL,
	"value" numeric(15, 6) NOT NULL,
	"unit" text NOT NULL,
	"detection_limit" numeric(15, 6),
	"specimen" text NOT NULL,
	CONSTRAINT "test_results_test_id_position_pk" PRIMARY KEY("test_id","position"),
	CONSTRAINT "test_results_position_counts" CHECK ("test_results"."position" between 0 and 199),
	CONSTRAINT "test_results_element_shape" CHECK ("test_results"."element" ~ '^[A-Z][a-z]?$'),
	CONSTRAINT "test_results_qualifier_known" CHECK ("test_results"."qualifier" in ('=', '<')),
	CONSTRAINT "test_results_value_possible" CHECK ("test_results"."value" between 0 and 1000000),
	CONSTRAINT "test_results_unit_length" CHECK (char_length("test_results"."unit") between 1 and 20),
	CONSTRAINT "test_results_limit_possible" CHECK ("test_results"."detection_limit" between 0 and 1000000),
	CONSTRAINT "test_results_specimen_length" CHECK (char_length("test_results"."specimen") between 0 and 80)
);
--> statement-breakpoint
CREATE TABLE "test_withdrawals" (
	"test_id" uuid PRIMARY KEY NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "test_withdrawals_why_length" CHECK (char_length("test_withdrawals"."why") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "tests" (
	"id" uuid PRIMARY KEY NOT NULL,
	"revision_id" uuid NOT NULL,
	"tile_id" uuid,
	"kind" text NOT NULL,
	"method" text NOT NULL,
	"laboratory" text NOT NULL,
	"article_class" text NOT NULL,
	"report" text NOT NULL,
	"outcome" text NOT NULL,
	"remark" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "tests_kind_known" CHECK ("tests"."kind" in ('acid', 'alkali', 'dishwasher', 'thermal shock', 'microwave', 'knife', 'leach')),
	CONSTRAINT "tests_outcome_known" CHECK ("tests"."outcome" in ('passed', 'failed', 'unclear')),
	CONSTRAINT "tests_method_length" CHECK (char_length("tests"."method") between 1 and 500),
	CONSTRAINT "tests_laboratory_length" CHECK (char_length("tests"."laboratory") between 0 and 120),
	CONSTRAINT "tests_article_class_length" CHECK (char_length("tests"."article_class") between 0 and 80),
	CONSTRAINT "tests_report_length" CHECK (char_length("tests"."report") between 0 and 300),
	CONSTRAINT "tests_remark_length" CHECK (char_length("tests"."remark") between 0 and 2000),
	CONSTRAINT "tests_leach_is_a_laboratorys" CHECK ("tests"."kind" <> 'leach' or "tests"."laboratory" <> '')
);
--> statement-breakpoint
CREATE TABLE "wishes" (
	"person_id" uuid PRIMARY KEY NOT NULL,
	"mail" text NOT NULL,
	"mailed_up_to" timestamp (3) with time zone,
	"feed_token_hash" text,
	CONSTRAINT "wishes_feed_token_unique" UNIQUE("feed_token_hash"),
	CONSTRAINT "wishes_mail_known" CHECK ("wishes"."mail" in ('off', 'at once', 'daily')),
	CONSTRAINT "wishes_feed_token_hashed" CHECK ("wishes"."feed_token_hash" ~ '^[0-9a-f]{64}$')
);
--> statement-breakpoint
ALTER TABLE "notes" ADD COLUMN "reply_to" uuid;--> statement-breakpoint
ALTER TABLE "notes" ADD COLUMN "blocking" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "chemistries" ADD COLUMN "leach_elements" text[];--> statement-breakpoint
ALTER TABLE "withdrawals" ADD COLUMN "for_safety" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "studios" ADD COLUMN "scale_grams" numeric(7, 4) DEFAULT 0.1 NOT NULL;--> statement-breakpoint
ALTER TABLE "studios" ADD COLUMN "approval_months" smallint;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "body_id" uuid;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "firing_id" uuid;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "bisque_cone" text;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "thickness_mm" numeric(5, 2);--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "place" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "surface" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "defects" text[] DEFAULT '{}' NOT NULL;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "over_id" uuid;--> statement-breakpoint
ALTER TABLE "bodies" ADD CONSTRAINT "bodies_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "body_sheets" ADD CONSTRAINT "body_sheets_body_id_bodies_id_fk" FOREIGN KEY ("body_id") REFERENCES "public"."bodies"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "body_sheets" ADD CONSTRAINT "body_sheets_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_changes" ADD CONSTRAINT "bucket_changes_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_changes" ADD CONSTRAINT "bucket_changes_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "buckets" ADD CONSTRAINT "buckets_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "buckets" ADD CONSTRAINT "buckets_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firings" ADD CONSTRAINT "firings_kiln_id_kilns_id_fk" FOREIGN KEY ("kiln_id") REFERENCES "public"."kilns"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firings" ADD CONSTRAINT "firings_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "kilns" ADD CONSTRAINT "kilns_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "witness_cones" ADD CONSTRAINT "witness_cones_firing_id_firings_id_fk" FOREIGN KEY ("firing_id") REFERENCES "public"."firings"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_supplier_id_suppliers_id_fk" FOREIGN KEY ("supplier_id") REFERENCES "public"."suppliers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lots" ADD CONSTRAINT "lots_analysis_of_this_material" FOREIGN KEY ("material_id","analysis_id") REFERENCES "public"."analyses"("material_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "suppliers" ADD CONSTRAINT "suppliers_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_closings" ADD CONSTRAINT "note_closings_note_id_notes_id_fk" FOREIGN KEY ("note_id") REFERENCES "public"."notes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_closings" ADD CONSTRAINT "note_closings_reply_id_notes_id_fk" FOREIGN KEY ("reply_id") REFERENCES "public"."notes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_closings" ADD CONSTRAINT "note_closings_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_edits" ADD CONSTRAINT "note_edits_note_id_notes_id_fk" FOREIGN KEY ("note_id") REFERENCES "public"."notes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_edits" ADD CONSTRAINT "note_edits_removed_by_people_id_fk" FOREIGN KEY ("removed_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_mentions" ADD CONSTRAINT "note_mentions_note_id_notes_id_fk" FOREIGN KEY ("note_id") REFERENCES "public"."notes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "note_mentions" ADD CONSTRAINT "note_mentions_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "offer_answers" ADD CONSTRAINT "offer_answers_offer_id_offers_id_fk" FOREIGN KEY ("offer_id") REFERENCES "public"."offers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "offer_answers" ADD CONSTRAINT "offer_answers_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "offer_answers" ADD CONSTRAINT "offer_answers_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "offers" ADD CONSTRAINT "offers_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "offers" ADD CONSTRAINT "offers_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "offers" ADD CONSTRAINT "offers_base_id_revisions_id_fk" FOREIGN KEY ("base_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "offers" ADD CONSTRAINT "offers_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "review_requests" ADD CONSTRAINT "review_requests_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "review_requests" ADD CONSTRAINT "review_requests_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reviews" ADD CONSTRAINT "reviews_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reviews" ADD CONSTRAINT "reviews_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reviews" ADD CONSTRAINT "reviews_note_id_notes_id_fk" FOREIGN KEY ("note_id") REFERENCES "public"."notes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "reviews" ADD CONSTRAINT "reviews_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revision_coauthors" ADD CONSTRAINT "revision_coauthors_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revision_coauthors" ADD CONSTRAINT "revision_coauthors_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "revision_standings" ADD CONSTRAINT "revision_standings_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "share_links" ADD CONSTRAINT "share_links_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "share_links" ADD CONSTRAINT "share_links_made_by_people_id_fk" FOREIGN KEY ("made_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "share_links" ADD CONSTRAINT "share_links_revoked_by_people_id_fk" FOREIGN KEY ("revoked_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_results" ADD CONSTRAINT "test_results_test_id_tests_id_fk" FOREIGN KEY ("test_id") REFERENCES "public"."tests"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_withdrawals" ADD CONSTRAINT "test_withdrawals_test_id_tests_id_fk" FOREIGN KEY ("test_id") REFERENCES "public"."tests"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_withdrawals" ADD CONSTRAINT "test_withdrawals_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tests" ADD CONSTRAINT "tests_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tests" ADD CONSTRAINT "tests_tile_id_tiles_id_fk" FOREIGN KEY ("tile_id") REFERENCES "public"."tiles"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tests" ADD CONSTRAINT "tests_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "wishes" ADD CONSTRAINT "wishes_person_id_people_id_fk" FOREIGN KEY ("person_id") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "body_sheets_of_body" ON "body_sheets" USING btree ("body_id","id");--> statement-breakpoint
CREATE INDEX "bucket_changes_of_bucket" ON "bucket_changes" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "buckets_of_revision" ON "buckets" USING btree ("revision_id");--> statement-breakpoint
CREATE INDEX "buckets_in_order" ON "buckets" USING btree ("name_key","id");--> statement-breakpoint
CREATE INDEX "firings_in_order" ON "firings" USING btree ("started_at","id");--> statement-breakpoint
CREATE INDEX "lots_of_material" ON "lots" USING btree ("material_id","id");--> statement-breakpoint
CREATE INDEX "note_edits_of_note" ON "note_edits" USING btree ("note_id","id");--> statement-breakpoint
CREATE INDEX "note_mentions_of_person" ON "note_mentions" USING btree ("person_id","note_id");--> statement-breakpoint
CREATE INDEX "offers_of_recipe" ON "offers" USING btree ("recipe_id","id");--> statement-breakpoint
CREATE INDEX "review_requests_of_revision" ON "review_requests" USING btree ("revision_id","id");--> statement-breakpoint
CREATE INDEX "reviews_of_digest" ON "reviews" USING btree ("digest","id");--> statement-breakpoint
CREATE INDEX "reviews_of_recipe" ON "reviews" USING btree ("recipe_id","id");--> statement-breakpoint
CREATE INDEX "revision_coauthors_of_person" ON "revision_coauthors" USING btree ("person_id");--> statement-breakpoint
CREATE INDEX "revision_standings_unsettled" ON "revision_standings" USING btree ("revision_id") WHERE "revision_standings"."unsettled";--> statement-breakpoint
CREATE INDEX "revision_standings_by_word" ON "revision_standings" USING btree ("is","revision_id");--> statement-breakpoint
CREATE INDEX "share_links_of_revision" ON "share_links" USING btree ("revision_id");--> statement-breakpoint
CREATE INDEX "tests_of_revision" ON "tests" USING btree ("revision_id","id");--> statement-breakpoint
CREATE INDEX "tests_of_tile" ON "tests" USING btree ("tile_id");--> statement-breakpoint
ALTER TABLE "notes" ADD CONSTRAINT "notes_reply_to_notes_id_fk" FOREIGN KEY ("reply_to") REFERENCES "public"."notes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_body_id_bodies_id_fk" FOREIGN KEY ("body_id") REFERENCES "public"."bodies"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_firing_id_firings_id_fk" FOREIGN KEY ("firing_id") REFERENCES "public"."firings"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_over_id_revisions_id_fk" FOREIGN KEY ("over_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "notes_of_thread" ON "notes" USING btree ("reply_to");--> statement-breakpoint
CREATE INDEX "notes_blocking" ON "notes" USING btree ("revision_id") WHERE "notes"."blocking";--> statement-breakpoint
CREATE INDEX "revisions_of_digest" ON "revisions" USING btree ("digest","id");--> statement-breakpoint
CREATE INDEX "tiles_of_firing" ON "tiles" USING btree ("firing_id");--> statement-breakpoint
CREATE INDEX "tiles_of_body" ON "tiles" USING btree ("body_id");--> statement-breakpoint
ALTER TABLE "notes" ADD CONSTRAINT "notes_reply_does_not_block" CHECK (not ("notes"."blocking" and "notes"."reply_to" is not null));--> statement-breakpoint
ALTER TABLE "withdrawals" ADD CONSTRAINT "withdrawals_only_for_safety_when_withdrawn" CHECK ("withdrawals"."withdrawn" or not "withdrawals"."for_safety");--> statement-breakpoint
ALTER TABLE "studios" ADD CONSTRAINT "studios_scale_possible" CHECK ("studios"."scale_grams" > 0 and "studios"."scale_grams" <= 100);--> statement-breakpoint
ALTER TABLE "studios" ADD CONSTRAINT "studios_approval_months_possible" CHECK ("studios"."approval_months" between 1 and 120);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_bisque_cone_shape" CHECK ("tiles"."bisque_cone" ~ '^0?[0-9]{1,2}(½)?$');--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_thickness_possible" CHECK ("tiles"."thickness_mm" > 0 and "tiles"."thickness_mm" <= 20);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_place_length" CHECK (char_length("tiles"."place") between 0 and 80);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_surface_length" CHECK (char_length("tiles"."surface") between 0 and 60);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_defects_known" CHECK ("tiles"."defects" <@ array['crazing', 'shivering', 'crawling', 'pinholing', 'blistering', 'running', 'dunting', 'underfired', 'overfired']::text[]);