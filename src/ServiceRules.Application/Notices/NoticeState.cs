namespace ServiceRules.Application.Notices;

/// <summary>What became of a notice. The numbers are kept and stay.</summary>
public enum NoticeState
{
    /// <summary>It is still to be delivered.</summary>
    Waiting = 0,

    /// <summary>The recipient took it.</summary>
    Delivered = 1,

    /// <summary>It was tried long enough.</summary>
    GivenUp = 2,

    /// <summary>What it would have told of was erased.</summary>
    NothingLeft = 3,
}
