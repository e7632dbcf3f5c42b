-- A page of the library as a visitor sees it: what is approved as functional first, then by name.
-- :narrowed is what it is narrowed by, :after where the page before ended.
with picked as (
  (select recipe_id, revision_id, name_key, 0 as key from recipe_heads
    where "for" = 'functional' and approved_until is not null and approved_until > now()
      and shown_to = 'public' and :narrowed and :after
    order by name_key, recipe_id limit 51)
  union all
  (select recipe_id, revision_id, name_key, 1 from recipe_heads
    where (approved_until is null or approved_until <= now() or "for" is distinct from 'functional')
      and shown_to = 'public' and :narrowed and :further
    order by name_key, recipe_id limit 51)
  order by key, name_key, recipe_id limit 51)
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
order by key, picked.name_key, picked.recipe_id;
