using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>A lock or tag in the site's register.</summary>
/// <param name="Id">The lock.</param>
/// <param name="Owner">To whom it is issued; absent: a job lock.</param>
public sealed record RegisteredLock(Id<LockDevice> Id, Id<Participant>? Owner);
