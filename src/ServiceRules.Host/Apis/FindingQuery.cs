using System.ComponentModel;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Apis;

/// <summary>Which findings are asked for.</summary>
internal sealed record FindingQuery : RowQuery
{
    private static readonly string[] Verdicts = ["met", "not-met", "unproven"];
    private static readonly string[] Severities = ["stop", "hold", "advise"];

    [Description("the rule")]
    public string? Rule { get; init; }

    [Description("met, not-met or unproven")]
    public string? Verdict { get; init; }

    [Description("stop, hold or advise")]
    public string? Severity { get; init; }

    [Description("what the finding does to the disposition, in the word of the assessment")]
    public string? Effect { get; init; }

    protected override IEnumerable<string> Names => [.. base.Names, "rule", "verdict", "severity", "effect"];

    /// <summary>A unit that is named is the one that the finding speaks of.</summary>
    public FindingFilter FindingsFor(Caller caller) =>
        new()
        {
            Of = FilterFor(caller) with { Unit = null },
            Rule = Rule,
            Unit = Unit,
            Verdict = Verdict,
            Severity = Severity,
            Effect = Effect,
        };

    protected override IEnumerable<IResult?> Faults() =>
        [.. base.Faults(), Among("verdict", Verdict, Verdicts), Among("severity", Severity, Severities)];
}
