using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>How the outcome of a duty that registers show is put together, the same way for every duty.</summary>
internal static class RegisterOutcome
{
    /// <summary>The worst fault first, the others as notices; met with a statement where there is none.</summary>
    public static CheckOutcome Of(
        IEnumerable<RegisterFault?> faults,
        string allWell,
        ImmutableArray<string> evidence
    )
    {
        var worst = faults
            .OfType<RegisterFault>()
            .OrderBy(fault => fault.Verdict == Verdict.NotMet ? 0 : 1)
            .ToList();
        return worst.Count == 0
            ? Told.Met(allWell, evidence)
            : TimelineOutcome.Of(
                worst[0].Verdict,
                worst[0].Reason,
                worst[0].Text,
                Told.Sorted(worst.SelectMany(fault => fault.Evidence)),
                worst[0].Act
            ) with
            {
                Notices = [.. worst.Skip(1).Select(fault => fault.Text).Distinct(StringComparer.Ordinal)],
            };
    }

    /// <summary>One fault.</summary>
    public static CheckOutcome Of(RegisterFault fault) => Of([fault], string.Empty, []);

    /// <summary>A day as registers write it.</summary>
    public static string Day(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
