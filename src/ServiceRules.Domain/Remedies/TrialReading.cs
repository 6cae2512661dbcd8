using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// A reading that a trial begins or ends with. It is one and the same only as one object: two trials that hold it share its
/// error, two readings of equal value do not.
/// </summary>
/// <param name="knowledge">What was known.</param>
/// <param name="shared">What it shares with other readings of its gauge; none where that is nothing.</param>
public sealed class TrialReading(Knowledge knowledge, SharedError? shared = null)
{
    /// <summary>What was known.</summary>
    public Knowledge Knowledge { get; } = knowledge;

    /// <summary>What it shares with other readings of its gauge.</summary>
    public SharedError? Shared { get; } = shared;
}
