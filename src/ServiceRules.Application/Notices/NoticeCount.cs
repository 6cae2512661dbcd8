namespace ServiceRules.Application.Notices;

/// <summary>How notices stand.</summary>
/// <param name="Waiting">Still to be delivered.</param>
/// <param name="GivenUp">Given up, and not tried anew.</param>
/// <param name="Oldest">When the oldest of those that wait fell due.</param>
public sealed record NoticeCount(long Waiting, long GivenUp, DateTimeOffset? Oldest);
