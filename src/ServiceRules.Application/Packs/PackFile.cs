namespace ServiceRules.Application.Packs;

/// <summary>One file of rules as it was sent.</summary>
/// <param name="Name">Its place in the folder of rules, with forward slashes.</param>
/// <param name="Content">What stands in it.</param>
public sealed record PackFile(string Name, ReadOnlyMemory<byte> Content);
