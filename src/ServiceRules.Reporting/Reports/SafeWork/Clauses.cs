using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Rules.Layering;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What the jurisdictions of a site cite for rules. One rule, one text: never two jurisdictions in one row.</summary>
internal sealed class Clauses
{
    private readonly ImmutableArray<RulePack> _packs;
    private readonly ImmutableArray<string> _jurisdictions;

    private Clauses(ImmutableArray<RulePack> packs, ImmutableArray<string> jurisdictions)
    {
        _packs = packs;
        _jurisdictions = jurisdictions;
        Texts =
        [
            .. jurisdictions
                .Select(named =>
                    packs.FirstOrDefault(pack =>
                        pack.Layer == PackLayer.Jurisdiction
                        && string.Equals(pack.Id.Text, named, StringComparison.Ordinal)
                    )
                )
                .OfType<RulePack>()
                .Select(pack => (pack.Title, pack.Precedence)),
        ];
    }

    /// <summary>Texts in force at the site, with what each says comes before it.</summary>
    public ImmutableArray<(string Title, string? Precedence)> Texts { get; }

    /// <summary>The clauses for the jobs of one site; those of several sites that name other texts cite none together.</summary>
    public static Clauses Of(IReadOnlyCollection<Assessed> jobs)
    {
        var first = jobs.First();
        var jurisdictions = first.Context.Jurisdictions;
        // A text that changed within the period is cited as it stood at its end.
        var last = jobs.Max(job => job.Record.Date);
        return new(
            [.. first.Book.Packs.Where(pack => pack.IsInForceOn(last))],
            jobs.All(job => job.Context.Jurisdictions.SequenceEqual(jurisdictions, StringComparer.Ordinal))
                ? jurisdictions
                : []
        );
    }

    /// <summary>The clauses of one text that ask what a rule asks; empty where none is cited.</summary>
    public string For(Rule rule)
    {
        if (CitationsInForce.Of(_packs, _jurisdictions, rule.Id) is not { } cited)
        {
            return "";
        }
        var clauses = string.Join(
            "; ",
            cited.Citations.Select(one => string.Join(", ", one.Clauses) + Standing(one.Standing))
        );
        return Texts.Length > 1 ? $"{cited.Title}: {clauses}" : clauses;
    }

    private static string Standing(CitationStanding standing) =>
        standing switch
        {
            CitationStanding.TextRead => "",
            CitationStanding.SecondaryRead => " (secondary source)",
            _ => " (from memory)",
        };
}
