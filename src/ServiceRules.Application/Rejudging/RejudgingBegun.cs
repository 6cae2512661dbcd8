namespace ServiceRules.Application.Rejudging;

/// <summary>What came of asking that the history be judged again.</summary>
public abstract record RejudgingBegun
{
    private RejudgingBegun() { }

    public sealed record Begun(RejudgingJob Job) : RejudgingBegun;

    /// <summary>It was under way already.</summary>
    public sealed record Running(RejudgingJob Job) : RejudgingBegun;

    /// <summary>No packs and sheets are kept under the digest.</summary>
    public sealed record NotStored : RejudgingBegun;

    /// <summary>Others are in force.</summary>
    public sealed record NotInForce(string InForce) : RejudgingBegun;
}
