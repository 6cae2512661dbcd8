namespace ServiceRules.Domain.Timeline;

/// <summary>A lock or tag; only its identity matters here.</summary>
public sealed record LockDevice;
