using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Application.Authoring;

/// <summary>Enters a setting order: a new file of the site, once nothing in force says otherwise on the same days.</summary>
public static class EnterOrder
{
    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="order">The order.</param>
    /// <param name="over">The orders that it knowingly takes precedence over.</param>
    /// <param name="newAreas">Areas that no order names yet and that are meant so.</param>
    public static AuthoringOutcome Run(
        LoadedRules rules,
        SettingOrder order,
        IReadOnlyCollection<string> over,
        IReadOnlyCollection<string> newAreas
    )
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(order);
        using var draft = FolderDraft.Of(rules.Folder);
        var file = $"{draft.SiteFolder}/setting-orders/{order.Id}.json";
        ImmutableArray<string> against =
        [
            .. Standing(rules, order, draft.Has(file) ? file : null),
            .. UnknownAreas(rules, order, newAreas),
            .. OrderConflicts.Of(rules, order, over),
            .. Wider(rules, order),
        ];
        if (!against.IsEmpty)
        {
            return new AuthoringOutcome.Refused(against);
        }

        draft.Put(file, order, SettingOrderFormat.Current);
        return draft.Keep(rules.Diagnostics);
    }

    private static IEnumerable<string> Standing(LoadedRules rules, SettingOrder order, string? file)
    {
        var standing = rules.Library.Orders.FirstOrDefault(one => one.Value.Id == order.Id)?.File ?? file;
        if (standing is not null)
        {
            yield return $"there is a setting order `{order.Id}` in {standing}; accepted: another identity; what was ordered is not written over";
        }

        if (order.Targets.IsEmpty && order.Schools.IsEmpty && order.Mowing.IsEmpty)
        {
            yield return "this order says nothing; accepted: at least one height, target, school or speed";
        }
    }

    // Loosening is another person's word with a reason and an end, not a figure of an order.
    private static IEnumerable<string> Wider(LoadedRules rules, SettingOrder order) =>
        order.Targets.SelectMany(target =>
            OrderWidth
                .Tighter(rules.Library, target)
                .Select(one =>
                {
                    var place = rules.PlaceOf(one.Sheet, one.Pointer);
                    return FormattableString.Invariant(
                            $"{place.File}:{place.Line}:{place.Column} {place.Pointer}: {one.Sheet.Value.Id} allows {one.Limit.ToleranceAboutTarget} either way from a target, and this order `{target.Tolerance}` for {FileWord.Of(target.Quantity)} on {target.Area}; "
                        )
                        + $"accepted: at most {one.Limit.ToleranceAboutTarget}, or none, and the sheet's counts"
                        + (
                            target.Sheet is null
                                ? $"; or by kind of unit: {target.Area}/SHEET=LENGTH +- LENGTH"
                                : ""
                        )
                        + "; an order may tighten only, to loosen a rule there is rules waive";
                })
        );

    // A target for an area that no record names would never be found.
    private static IEnumerable<string> UnknownAreas(
        LoadedRules rules,
        SettingOrder order,
        IReadOnlyCollection<string> newAreas
    )
    {
        var known = rules
            .Library.Orders.SelectMany(one => one.Value.Targets)
            .Select(target => target.Area)
            .ToHashSet(StringComparer.Ordinal);
        return order
            .Targets.Select(target => target.Area)
            .Concat(order.Mowing.Select(mowing => mowing.Area))
            .Distinct(StringComparer.Ordinal)
            .Where(area => !known.Contains(area) && !newAreas.Contains(area))
            .Select(area =>
                $"no setting order names the area `{area}` yet; accepted: {(known.Count == 0 ? "a new one" : $"one of {string.Join(", ", known.Order(StringComparer.Ordinal))}; or a new one")}, said with --new-area {area}"
            );
    }
}
