using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>Citations name rules that are there, stand in jurisdiction packs, and those say what comes before them.</summary>
internal static class CitationCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var known = library.Rules.Select(rule => rule.Value.Id.Text).ToHashSet(StringComparer.Ordinal);
        var meant = new MeantName(known, "a rule of this folder");
        foreach (var pack in library.Packs)
        {
            var isJurisdiction = pack.Pack.Layer is PackLayer.Jurisdiction;
            if (isJurisdiction && pack.Pack.Precedence is null)
            {
                remarks.Error(
                    DiagnosticCode.NoPrecedence,
                    new Placed<RulePack>(pack.Pack, pack.File, ""),
                    "",
                    "a jurisdiction pack does not say what comes before it",
                    "`precedence`, a sentence such as which local codes are asked first"
                );
            }

            foreach (var citation in pack.Citations)
            {
                Citation(
                    citation,
                    isJurisdiction,
                    known.Contains(citation.Value.Rule.Text) ? null : meant.Of(citation.Value.Rule.Text),
                    remarks
                );
            }
        }
    }

    private static void Citation(
        Placed<Citation> citation,
        bool isJurisdiction,
        string? unknown,
        Remarks remarks
    )
    {
        if (!isJurisdiction)
        {
            remarks.Error(
                DiagnosticCode.CitationOutOfPlace,
                citation,
                "",
                "this pack is of no jurisdiction and cites a text",
                "citations in a pack of the jurisdiction layer"
            );
        }

        if (unknown is not null)
        {
            remarks.Error(
                DiagnosticCode.UnknownRule,
                citation,
                "/rule",
                $"there is no rule `{citation.Value.Rule}` to cite a text for",
                unknown
            );
        }
    }
}
