using System.Text.Json.Nodes;

namespace ServiceRules.Formats.SafeWork;

/// <summary>One job of a period: two whole documents, each to be read by its own format.</summary>
/// <param name="Record">A service record.</param>
/// <param name="Context">The registers it is judged with.</param>
public sealed record SafeWorkJob(JsonNode Record, JsonNode Context)
{
    /// <summary>The account or key that sent the record to a service; null where no sign-in was checked.</summary>
    public string? Sender { get; init; }
}
