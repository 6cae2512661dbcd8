namespace ServiceRules.Host.Apis;

/// <summary>That a route takes an <see cref="IdempotencyKey"/>, for the description of the interface.</summary>
internal sealed class TakesKeyMetadata;
