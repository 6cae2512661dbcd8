using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// A rule that asks whether the sheet states a quantity is silent on a kind of unit whose sheet leaves it out. Whoever left it
/// out is told which rules that takes away; a rule that stops, because someone could be hurt, only with a reason.
/// </summary>
internal static class LeftOutCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        // The one of the highest layer counts, of several of one identity.
        var rules = library
            .Packs.OrderBy(pack => pack.Pack.Layer)
            .SelectMany(pack => pack.Rules)
            .GroupBy(rule => rule.Value.Id.Text, StringComparer.Ordinal)
            .Select(group => group.Last().Value)
            .Where(rule => rule.When.SheetStates is not null)
            .OrderBy(rule => rule.Id.Text, StringComparer.Ordinal)
            .ToList();
        foreach (var sheet in library.Sheets)
        {
            foreach (
                var left in rules
                    .Where(rule => IsLeftOut(rule.When, sheet.Value))
                    .GroupBy(rule => rule.When.SheetStates!.Value)
            )
            {
                Tell(sheet, left.Key, [.. left], remarks);
            }
        }
    }

    /// <summary>Whether a rule would reach a kind of unit, if only its sheet stated the quantity.</summary>
    private static bool IsLeftOut(Applicability when, LimitSheet sheet) =>
        sheet.Of(when.SheetStates!.Value) is null
        && RuleReachCheck.Reaches(when with { SheetStates = null }, sheet);

    private static void Tell(
        Placed<LimitSheet> sheet,
        MeasuredQuantity quantity,
        List<Rule> rules,
        Remarks remarks
    )
    {
        var word = FileWord.Of(quantity);
        var named = string.Join(", ", rules.Select(rule => $"`{rule.Id}`"));
        var stops = string.Join(
            ", ",
            rules.Where(rule => rule.Severity is Severity.Stop).Select(rule => $"`{rule.Id}`")
        );
        var what =
            $"the sheet does not state `{word}`, so that on this kind of unit nothing is ever judged by {named}";
        var because =
            $"`leftOut` with `{{ \"quantity\": \"{word}\", \"why\": ... }}` where such a unit has none";
        for (var at = 0; at < sheet.Value.LeftOut.Length; at++)
        {
            if (sheet.Value.LeftOut[at].Quantity == quantity)
            {
                if (stops.Length > 0)
                {
                    remarks.Notice(
                        DiagnosticCode.RuleNotReached,
                        sheet,
                        FormattableString.Invariant($"/leftOut/{at}"),
                        $"{what}; {stops} stops what could hurt someone",
                        "nothing to do where that is so; else the quantity among `quantities`"
                    );
                }

                return;
            }
        }

        if (stops.Length > 0)
        {
            remarks.Error(
                DiagnosticCode.RuleNotReached,
                sheet,
                "/quantities",
                $"{what}; {stops} stops what could hurt someone",
                $"`{word}` among `quantities`, or {because}"
            );
        }
        else
        {
            remarks.Notice(
                DiagnosticCode.RuleNotReached,
                sheet,
                "/quantities",
                what,
                $"`{word}` among `quantities`, or {because}"
            );
        }
    }
}
