CREATE TABLE "families" (
	"id" uuid PRIMARY KEY NOT NULL,
	"slug" text NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"intro" text NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "families_slug_unique" UNIQUE("slug"),
	CONSTRAINT "families_name_unique" UNIQUE("name_key"),
	CONSTRAINT "families_slug_shape" CHECK ("families"."slug" ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
	CONSTRAINT "families_slug_length" CHECK (char_length("families"."slug") between 1 and 80),
	CONSTRAINT "families_name_length" CHECK (char_length("families"."name") between 1 and 80),
	CONSTRAINT "families_intro_length" CHECK (char_length("families"."intro") between 0 and 8000)
);
--> statement-breakpoint
CREATE TABLE "family_recipes" (
	"family_id" uuid NOT NULL,
	"position" smallint NOT NULL,
	"recipe_id" uuid NOT NULL,
	CONSTRAINT "family_recipes_family_id_position_pk" PRIMARY KEY("family_id","position"),
	CONSTRAINT "family_recipes_position_counts" CHECK ("family_recipes"."position" between 0 and 199)
);
--> statement-breakpoint
CREATE TABLE "trial_photos" (
	"id" uuid PRIMARY KEY NOT NULL,
	"result_id" uuid NOT NULL,
	"sha256" text NOT NULL,
	"alt" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "trial_photos_alt_length" CHECK (char_length("trial_photos"."alt") between 0 and 500)
);
--> statement-breakpoint
CREATE TABLE "trial_points" (
	"trial_id" uuid NOT NULL,
	"n" smallint NOT NULL,
	"shares" double precision[] NOT NULL,
	"lines" jsonb NOT NULL,
	CONSTRAINT "trial_points_trial_id_n_pk" PRIMARY KEY("trial_id","n"),
	CONSTRAINT "trial_points_n_counts" CHECK ("trial_points"."n" between 1 and 500),
	CONSTRAINT "trial_points_shares_few" CHECK (cardinality("trial_points"."shares") between 1 and 4)
);
--> statement-breakpoint
CREATE TABLE "trial_recipes" (
	"recipe_id" uuid PRIMARY KEY NOT NULL,
	"trial_id" uuid NOT NULL,
	"n" smallint NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "trial_results" (
	"id" uuid PRIMARY KEY NOT NULL,
	"trial_id" uuid NOT NULL,
	"n" smallint NOT NULL,
	"body_id" uuid,
	"firing_id" uuid,
	"cone" text,
	"surface" text NOT NULL,
	"defects" text[] NOT NULL,
	"remark" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "trial_results_cone_shape" CHECK ("trial_results"."cone" ~ '^0?[0-9]{1,2}(½)?$'),
	CONSTRAINT "trial_results_surface_length" CHECK (char_length("trial_results"."surface") between 0 and 60),
	CONSTRAINT "trial_results_remark_length" CHECK (char_length("trial_results"."remark") between 0 and 2000)
);
--> statement-breakpoint
CREATE TABLE "trials" (
	"id" uuid PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"name_key" text COLLATE "C" NOT NULL,
	"kind" text NOT NULL,
	"measure" text NOT NULL,
	"question" jsonb NOT NULL,
	"about" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "trials_name_length" CHECK (char_length("trials"."name") between 1 and 80),
	CONSTRAINT "trials_kind_known" CHECK ("trials"."kind" in ('ladder', 'line', 'triaxial', 'grid')),
	CONSTRAINT "trials_measure_known" CHECK ("trials"."measure" in ('dry weight', 'slurry volume')),
	CONSTRAINT "trials_about_length" CHECK (char_length("trials"."about") between 0 and 4000)
);
--> statement-breakpoint
ALTER TABLE "families" ADD CONSTRAINT "families_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "family_recipes" ADD CONSTRAINT "family_recipes_family_id_families_id_fk" FOREIGN KEY ("family_id") REFERENCES "public"."families"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "family_recipes" ADD CONSTRAINT "family_recipes_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_photos" ADD CONSTRAINT "trial_photos_result_id_trial_results_id_fk" FOREIGN KEY ("result_id") REFERENCES "public"."trial_results"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_photos" ADD CONSTRAINT "trial_photos_sha256_pictures_sha256_fk" FOREIGN KEY ("sha256") REFERENCES "public"."pictures"("sha256") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_photos" ADD CONSTRAINT "trial_photos_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_points" ADD CONSTRAINT "trial_points_trial_id_trials_id_fk" FOREIGN KEY ("trial_id") REFERENCES "public"."trials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_recipes" ADD CONSTRAINT "trial_recipes_recipe_id_recipes_id_fk" FOREIGN KEY ("recipe_id") REFERENCES "public"."recipes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_recipes" ADD CONSTRAINT "trial_recipes_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_recipes" ADD CONSTRAINT "trial_recipes_of_a_point" FOREIGN KEY ("trial_id","n") REFERENCES "public"."trial_points"("trial_id","n") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_results" ADD CONSTRAINT "trial_results_body_id_bodies_id_fk" FOREIGN KEY ("body_id") REFERENCES "public"."bodies"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_results" ADD CONSTRAINT "trial_results_firing_id_firings_id_fk" FOREIGN KEY ("firing_id") REFERENCES "public"."firings"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_results" ADD CONSTRAINT "trial_results_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_results" ADD CONSTRAINT "trial_results_of_a_point" FOREIGN KEY ("trial_id","n") REFERENCES "public"."trial_points"("trial_id","n") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trials" ADD CONSTRAINT "trials_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "family_recipes_of_recipe" ON "family_recipes" USING btree ("recipe_id");--> statement-breakpoint
CREATE INDEX "trial_photos_of_result" ON "trial_photos" USING btree ("result_id","id");--> statement-breakpoint
CREATE INDEX "trial_photos_of_picture" ON "trial_photos" USING btree ("sha256");--> statement-breakpoint
CREATE INDEX "trial_recipes_of_trial" ON "trial_recipes" USING btree ("trial_id","n");--> statement-breakpoint
CREATE INDEX "trial_results_of_point" ON "trial_results" USING btree ("trial_id","n","id");--> statement-breakpoint
CREATE INDEX "trials_in_order" ON "trials" USING btree ("at","id");