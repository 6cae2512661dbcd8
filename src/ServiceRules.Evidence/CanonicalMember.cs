namespace ServiceRules.Evidence;

/// <summary>One member of an object as it stands in the output: its name, and where `"name":value` lies.</summary>
internal readonly record struct CanonicalMember(string Name, int Start, int Length, long Offset);
