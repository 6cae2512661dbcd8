using System.Text.Json.Nodes;

namespace ServiceRules.Formats.Cases;

/// <summary>One step of a JSON Patch (RFC 6902).</summary>
/// <param name="Operation">What it does.</param>
/// <param name="Path">Where, as a JSON pointer; `-` after a list stands for its end.</param>
/// <param name="From">Whence, for a move or a copy.</param>
/// <param name="Value">What, for adding, replacing or testing.</param>
public sealed record PatchStep(PatchOperation Operation, string Path, string? From, JsonNode? Value);
