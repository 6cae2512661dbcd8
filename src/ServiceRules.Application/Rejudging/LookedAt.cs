using ServiceRules.Application.Assessing;
using ServiceRules.Application.Rows;

namespace ServiceRules.Application.Rejudging;

/// <summary>What judging one record again came to.</summary>
/// <param name="Row">Its newest version, with the assessment that it was looked at with.</param>
internal abstract record LookedAt(RecordRow Row)
{
    /// <summary>It comes out otherwise.</summary>
    public sealed record Turned(RecordRow Row, Assessed Again) : LookedAt(Row)
    {
        /// <summary>Whether the job may go out otherwise than before.</summary>
        public bool IsOtherDisposition =>
            !string.Equals(
                Row.Disposition,
                Again.Assessment.Job.Disposition.ToString(),
                StringComparison.OrdinalIgnoreCase
            );
    }

    public sealed record Unchanged(RecordRow Row) : LookedAt(Row);

    /// <summary>It was judged by these rules already.</summary>
    public sealed record Passed(RecordRow Row) : LookedAt(Row);

    public sealed record Failed(RecordRow Row, string Why) : LookedAt(Row);
}
