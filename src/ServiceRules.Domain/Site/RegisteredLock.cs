using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>A lock or tag in the site's register.</summary>
/// <param name="Id">The lock.</param>
/// <param name="Owner">To whom it is issued; absent: a job lock.</param>
public sealed record RegisteredLock(Id<LockDevice> Id, Id<Participant>? Owner)
{
    /// <summary>The use of a lock that nothing else is hung with.</summary>
    public const string Lockout = "lockout";

    /// <summary>What it is registered for.</summary>
    public string Use { get; init; } = Lockout;

    /// <summary>Its colour, shape or make-up as the site tells its own by; absent: not stated.</summary>
    public string? Style { get; init; }

    /// <summary>A tag, not a lock.</summary>
    public bool IsTag { get; init; }

    /// <summary>What a tag warns of, for example not to start; absent: nothing is stated.</summary>
    public string? Legend { get; init; }
}
