using System.Collections.Immutable;

namespace ServiceRules.Application.Comparing;

/// <summary>One kind of change that a flip comes from.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="IsAlone">
/// Whether changes of this kind alone make the verdict what it would be; if not, only together with the other causes named.
/// </param>
/// <param name="Changes">The changes of this kind that touch the rule or its subject.</param>
public sealed record FlipCause(ChangeKind Kind, bool IsAlone, ImmutableArray<FolderChange> Changes);
