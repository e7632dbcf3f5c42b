CREATE TABLE "engine_moves" (
	"revision_id" uuid NOT NULL,
	"from_engine" text NOT NULL,
	"to_engine" text NOT NULL,
	"moves" jsonb NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "engine_moves_revision_id_from_engine_to_engine_pk" PRIMARY KEY("revision_id","from_engine","to_engine"),
	CONSTRAINT "engine_moves_from_length" CHECK (char_length("engine_moves"."from_engine") between 1 and 20),
	CONSTRAINT "engine_moves_to_length" CHECK (char_length("engine_moves"."to_engine") between 1 and 20)
);
--> statement-breakpoint
ALTER TABLE "engine_moves" ADD CONSTRAINT "engine_moves_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "engine_moves_in_order" ON "engine_moves" USING btree ("to_engine","revision_id");