namespace ServiceRules.Application.Importing;

/// <summary>Why a cell cannot be used.</summary>
/// <param name="What">What is wrong.</param>
/// <param name="Found">What stands there.</param>
/// <param name="Accepted">What would be accepted.</param>
internal sealed record Unfit(string What, string Found, string Accepted);
