namespace ServiceRules.Application.Rejudging;

/// <summary>A record that could not be judged again.</summary>
/// <param name="Entry">Place of its newest version in the log.</param>
/// <param name="Record">The record.</param>
/// <param name="Why">Why, in words that name nothing of its content but what the rules lack.</param>
public sealed record NotJudged(long Entry, string Record, string Why);
