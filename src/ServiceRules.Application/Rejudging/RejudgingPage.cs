namespace ServiceRules.Application.Rejudging;

/// <summary>A part of the history that is judged in one turn, and kept until that is filed.</summary>
/// <param name="Job">The job that it is of.</param>
/// <param name="Number">Its place in it, from 0.</param>
/// <param name="First">Place in the log of its first record.</param>
/// <param name="Last">Place in the log of its last one.</param>
/// <param name="Records">How many it had when it was cut.</param>
public sealed record RejudgingPage(RejudgingJob Job, long Number, long First, long Last, long Records)
{
    /// <summary>Records of a page at most: about two seconds of one processor, which is what a kill may cost.</summary>
    public const int MostRecords = 50;
}
