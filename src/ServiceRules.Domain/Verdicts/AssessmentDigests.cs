namespace ServiceRules.Domain.Verdicts;

/// <summary>Content digests, each as <c>sha256:</c> and 64 lower-case hex digits over RFC 8785 bytes.</summary>
/// <param name="Record">Of the record.</param>
/// <param name="Context">Of the frozen context.</param>
/// <param name="Packs">Of the rules in force (packs and limit sheets together).</param>
public sealed record AssessmentDigests(string Record, string Context, string Packs);
