using System.Collections.Immutable;

namespace ServiceRules.Application.Due;

/// <summary>That recipients are to be told of something that falls due: once. No person stands in it.</summary>
/// <param name="Thing">Names the thing and its day, and tells neither: 32 bytes.</param>
/// <param name="Told">What is told.</param>
/// <param name="Recipients">Who, by their names in the settings.</param>
public sealed record DueNotice(
    ReadOnlyMemory<byte> Thing,
    ToldDueNotice Told,
    ImmutableArray<string> Recipients
);
