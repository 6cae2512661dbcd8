using System.Collections.Immutable;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>Citations of one topic of a jurisdiction pack: one file beside others.</summary>
public sealed record CitationsFile(ImmutableArray<Citation> Citations);
