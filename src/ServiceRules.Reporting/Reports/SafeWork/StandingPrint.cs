using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Word, mark and colour of what a record shows as a whole; always all three.</summary>
internal static class StandingPrint
{
    /// <summary>Of one job: an exemption is told with whoever decided it.</summary>
    public static VerdictPrint Of(SafeWorkFindings found, RecordState state)
    {
        var print = Of(found.Standing, state);
        return found is { Standing: SafeWorkStanding.Exempt, Exemption: { } claim }
            ? print with
            {
                Word = $"exempt from lockout by {ClaimWords.By(claim)}",
            }
            : print;
    }

    public static VerdictPrint Of(SafeWorkStanding standing, RecordState state) =>
        standing switch
        {
            SafeWorkStanding.NotShown when state == RecordState.Open => new(
                "make safe first",
                Mark.Stop,
                Palette.Stop
            ),
            SafeWorkStanding.NotShown => new("safe work not shown", Mark.Stop, Palette.Stop),
            SafeWorkStanding.NotProven => new("safe work not proven", Mark.NotProven, Palette.NotProven),
            SafeWorkStanding.InProgress => new("in progress", Mark.NotProven, Palette.NotProven),
            SafeWorkStanding.Exempt => new("exempt by a claim", Mark.DoesNotApply, Palette.NotProven),
            SafeWorkStanding.Shown => new("record shows safe work", Mark.In, Palette.In),
            SafeWorkStanding.NotJudged => new("not judged", Mark.DoesNotApply, Palette.Quiet),
            _ => throw new ArgumentOutOfRangeException(nameof(standing), standing, null),
        };
}
