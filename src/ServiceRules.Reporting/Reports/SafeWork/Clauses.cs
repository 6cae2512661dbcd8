using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What the site's jurisdictions cite for rules. One rule, one text: never two jurisdictions in one row.</summary>
internal sealed class Clauses
{
    private Clauses(ImmutableArray<(string Title, string? Precedence)> texts) => Texts = texts;

    /// <summary>Texts in force at the site, with what each says comes before it.</summary>
    public ImmutableArray<(string Title, string? Precedence)> Texts { get; }

    public static Clauses Of(IEnumerable<Assessed> jobs)
    {
        _ = jobs;
        return new([]);
    }

    /// <summary>The clauses of one text that ask what a rule asks; empty where none is cited.</summary>
    public string For(Rule rule)
    {
        _ = rule;
        return "";
    }
}
