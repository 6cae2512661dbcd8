namespace ServiceRules.Host.Apis;

/// <summary>That a route takes <see cref="IfMatch"/>, for the description of the interface.</summary>
internal sealed class TakesIfMatchMetadata;
