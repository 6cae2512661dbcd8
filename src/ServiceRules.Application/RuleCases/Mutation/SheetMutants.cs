using ServiceRules.Application.Library;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>A sheet with each of its limits moved.</summary>
internal static class SheetMutants
{
    public static IEnumerable<Mutant> Of(LoadedRules rules, Placed<LimitSheet> placed) =>
        from limit in SheetLimit.Of(placed.Value)
        from moved in Nudge.Of(limit.Print)
        select new Mutant(
            MutationKind.LimitMoved,
            placed.Value.Id.Text,
            $"{FileWords.Of(limit.Limit.Quantity)} {FileWords.MemberOf(limit.Member)} {limit.Print} -> {moved}",
            rules.PlaceOf(placed, limit.Pointer)
        )
        {
            Sheet = limit.With(moved),
            Limit = limit,
        };
}
