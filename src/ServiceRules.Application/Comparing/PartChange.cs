namespace ServiceRules.Application.Comparing;

/// <summary>One thing that two versions of a rule, sheet or register say differently, as their files write it.</summary>
/// <param name="Where">Which member, by the names that stand in the file.</param>
/// <param name="Old">The earlier value as JSON; null when it is new.</param>
/// <param name="New">The later value as JSON; null when it is gone.</param>
public sealed record PartChange(string Where, string? Old, string? New);
