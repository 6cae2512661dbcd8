namespace ServiceRules.Evidence;

/// <summary>The first thing that keeps a document from having a canonical form.</summary>
/// <param name="Reason">The kind of fault.</param>
/// <param name="Offset">Byte offset in the input, from 0, at or just before the fault.</param>
/// <param name="Found">What stands there, in words for a person.</param>
/// <param name="Accepted">What would be accepted instead.</param>
public sealed record CanonicalRefusal(
    CanonicalRefusalReason Reason,
    long Offset,
    string Found,
    string Accepted
)
{
    /// <summary>One line for a person: where, what was found, what is accepted.</summary>
    public override string ToString() =>
        FormattableString.Invariant($"byte {Offset}: {Found}; accepted: {Accepted}");
}
