using System.Text.Json;

namespace ServiceRules.Host.Filing;

/// <summary>A list of documents or parts of them.</summary>
internal sealed record ListAnswer(IReadOnlyList<JsonElement> Items);
