using ServiceRules.Application.Library;

namespace ServiceRules.Application.RuleCases.Coverage;

/// <summary>One thing that a case should exercise.</summary>
/// <param name="Kind">What kind of thing.</param>
/// <param name="Of">Identity text of the rule or sheet.</param>
/// <param name="Part">The part, as the file names it; for a limit with its print.</param>
/// <param name="Side">Which side of it: for a verdict empty, for a condition and a limit in words.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="Cases">How many cases exercise it.</param>
public sealed record CoveragePart(
    CoverageKind Kind,
    string Of,
    string Part,
    string Side,
    RulePlace Place,
    int Cases
);
