-- The best 51 for one word that a visitor typed, whichever powders go by it (:powders, as a query).
with asked as (
  select to_tsquery('simple', ':word') || to_tsquery('english', ':word') as text,
    to_tsquery('simple', ':word:A') || to_tsquery('english', ':word:A') as name,
    to_tsquery('simple', ':word:B') || to_tsquery('english', ':word:B') as surface,
    to_tsquery('simple', ':word:C') || to_tsquery('english', ':word:C') as about,
    $q$:powders$q$::tsquery as powders),
picked as (
  select recipe_id, revision_id, name_key,
    case when name_key = ':word' then 100 when starts_with(name_key, ':word') then 20 else 0 end
      + case when words @@ asked.name then 8 when words @@ asked.powders then 5
          when words @@ asked.surface then 3 when words @@ asked.about then 2 else 1 end as points
  from asked, recipe_words join recipe_heads using (recipe_id)
  where words @@ (asked.text || asked.powders) and shown_to = 'public'
  order by points desc, name_key, recipe_id limit 51)
select recipes.slug, recipes.name, people.id as owner_id, people.name as owner, revisions.number,
  revisions.use, revisions.cone_low, revisions.cone_high, revisions.atmosphere, revisions.surface,
  revision_standings."is", revision_standings.unsettled, approved.number as approved_number,
  approved."for" as approved_for, tested.cones, picture.sha256, picture.alt
from picked
join recipes on recipes.id = picked.recipe_id
join revisions on revisions.id = picked.revision_id
join revision_standings on revision_standings.revision_id = revisions.id
join people on people.id = recipes.owner_id
left join lateral (
  select v.number, s."for" from revisions v join revision_standings s on s.revision_id = v.id
  where v.recipe_id = picked.recipe_id and s."is" = 'approved' and not s.unsettled
    and (s.valid_until is null or s.valid_until > now())
  order by v.number desc limit 1) approved on true
left join lateral (
  select array_agg(distinct t.cone) as cones from revisions v
  join tiles t on t.revision_id = v.id join recipes r on r.id = v.recipe_id
  where v.melt_digest = revisions.melt_digest and r.shown_to = 'public' and t.over_id is null
    and not exists (select 1 from tile_withdrawals w where w.tile_id = t.id)) tested on true
left join lateral (
  select p.sha256, p.alt from revisions v
  join tiles t on t.revision_id = v.id join recipes r on r.id = v.recipe_id
  join photos p on p.tile_id = t.id
  where v.melt_digest = revisions.melt_digest and r.shown_to = 'public' and t.over_id is null
    and not exists (select 1 from tile_withdrawals w where w.tile_id = t.id)
    and not exists (select 1 from picture_bytes b
      where b.sha256 = p.sha256 and b.width = 0 and b.removed_at is not null)
  order by t.id, p.id limit 1) picture on true
order by points desc, picked.name_key, picked.recipe_id;
