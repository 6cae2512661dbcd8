namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Remarks that people are told though the finding is met: what was read and is not counted or was taken back, what harms the turf though the
/// height is right, whose word on a job card it was held to,
/// and how many units of the machine nobody read. Other remarks on what is met are for who asks.
/// </summary>
public static class ToldThoughMet
{
    internal const string ContradictsLatest = "contradicts the latest";

    internal const string TakesOffTooMuch = "takes off more than a third at once";

    internal const string SpreadNotShown = "the spread over the whole machine is not shown";

    internal const string TakenBack = ": taken back, and counts for nothing: ";

    internal const string AskedFor = "asked for ";

    /// <summary>Whether a notice of a finding is one of these.</summary>
    /// <param name="notice">The notice.</param>
    public static bool Is(string notice)
    {
        ArgumentNullException.ThrowIfNull(notice);
        return notice.Contains(ContradictsLatest, StringComparison.Ordinal)
            || notice.Contains(TakesOffTooMuch, StringComparison.Ordinal)
            || notice.Contains(SpreadNotShown, StringComparison.Ordinal)
            || notice.Contains(TakenBack, StringComparison.Ordinal)
            || IsOfJobCard(notice);
    }

    /// <summary>Whether a notice tells of a job card that moved a target, or that was not taken.</summary>
    /// <param name="notice">The notice.</param>
    public static bool IsOfJobCard(string notice)
    {
        ArgumentNullException.ThrowIfNull(notice);
        return notice.StartsWith(AskedFor, StringComparison.Ordinal);
    }
}
