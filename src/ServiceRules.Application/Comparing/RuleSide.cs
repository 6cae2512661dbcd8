using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>
/// One of the two folders, or a mixture of both, ready to judge. Its rules are compiled on first use and kept for all records;
/// nothing is written or hashed. Safe to share between threads.
/// </summary>
internal sealed class RuleSide(RuleBook book, SiteRegisters site)
{
    // Nothing is kept of a record, and the engine only wants to know that the rules are the same.
    private static readonly AssessmentDigests Digests = new("", "", "");

    private readonly RuleEngine engine = new();

    public RuleBook Book => book;

    public SiteRegisters Site => site;

    /// <summary>Limit sheets that a record names and this side does not have.</summary>
    public ImmutableArray<string> Missing(ServiceRecord record) =>
        [
            .. record
                .Units.Select(unit => unit.Sheet)
                .Where(sheet => book.Sheet(sheet) is null)
                .Distinct(StringComparer.Ordinal),
        ];

    public Assessment Judge(ServiceRecord record, WorkElsewhere others) =>
        engine.Assess(record, ContextFreezer.Freeze(site, record, others), book, Digests);

    /// <summary>The same, where the rules may not fit together because they are of two folders.</summary>
    public bool TryJudge(
        ServiceRecord record,
        WorkElsewhere others,
        [NotNullWhen(true)] out Assessment? assessment
    )
    {
        try
        {
            assessment = Judge(record, others);
            return true;
        }
        catch (EngineFaultException)
        {
            assessment = null;
            return false;
        }
    }

    /// <summary>The rules in force at the site, by identity.</summary>
    public ImmutableSortedDictionary<string, Rule> InForce { get; } =
        Rules
            .Layering.RulesInForce.Of(book.Packs, site.Jurisdictions)
            .ToImmutableSortedDictionary(rule => rule.Id.Text, rule => rule, StringComparer.Ordinal);
}
