using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Authoring;

/// <summary>Enters a waiver in the registers of the site.</summary>
public static class EnterWaiver
{
    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="waiver">The waiver.</param>
    public static AuthoringOutcome Run(LoadedRules rules, Waiver waiver)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(waiver);
        ImmutableArray<string> against = [.. Against(rules, waiver)];
        if (!against.IsEmpty)
        {
            return new AuthoringOutcome.Refused(against);
        }

        using var draft = FolderDraft.Of(rules.Folder);
        var file = draft.Of(RuleFileKind.Registers).First();
        var registers = draft.Read(file, SiteFormat.Registers);
        draft.Put(file, registers with { Waivers = [.. registers.Waivers, waiver] }, SiteFormat.Registers);
        return draft.Keep(rules.Diagnostics);
    }

    private static IEnumerable<string> Against(LoadedRules rules, Waiver waiver)
    {
        var named = rules
            .Book.Packs.SelectMany(pack => pack.Rules)
            .Where(rule => rule.Id.Text == waiver.Rule)
            .ToList();
        if (named.Count == 0)
        {
            yield return $"there is no rule `{waiver.Rule}` in `{rules.Folder}`; accepted: the identity of a rule of this folder";
        }
        else if (named.Any(rule => rule.Severity is Severity.Stop))
        {
            yield return $"`{waiver.Rule}` stops a job because someone could be hurt, and that is never waived; accepted: a rule that holds or advises";
        }

        if (waiver.Until < waiver.From)
        {
            yield return FormattableString.Invariant(
                $"the last day, {waiver.Until:yyyy-MM-dd}, is before the first, {waiver.From:yyyy-MM-dd}; accepted: --from or later"
            );
        }

        foreach (
            var standing in rules.Library.Waivers.Where(one =>
                one.Value.Rule == waiver.Rule
                && (one.Value.Unit is null || waiver.Unit is null || one.Value.Unit == waiver.Unit)
                && one.Value.From <= waiver.Until
                && waiver.From <= one.Value.Until
            )
        )
        {
            var place = rules.PlaceOf(standing, "");
            yield return FormattableString.Invariant(
                $"{place.File}:{place.Line}:{place.Column} {place.Pointer}: `{waiver.Rule}` is waived on {standing.Value.Unit ?? "every unit"} already, {standing.Value.From:yyyy-MM-dd} to {standing.Value.Until:yyyy-MM-dd}, by {standing.Value.By}; accepted: other days or another unit"
            );
        }
    }
}
