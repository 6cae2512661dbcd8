using ServiceRules.Formats.Json;

namespace ServiceRules.Application.Authoring;

/// <summary>A file of a folder of rules beside its canonical form.</summary>
/// <param name="Path">Where it stands.</param>
/// <param name="Canonical">Its canonical form; empty when it has none.</param>
/// <param name="Problems">Why it has none; empty when it has one.</param>
/// <param name="IsCanonical">Whether it is written so already.</param>
public sealed record CanonicalFile(
    string Path,
    ReadOnlyMemory<byte> Canonical,
    ProblemReport Problems,
    bool IsCanonical
);
