namespace ServiceRules.Host.Providers;

/// <summary>The provider of this service, if it has one.</summary>
internal sealed record Provider(ProviderSettings? Settings)
{
    /// <summary>What people call it; null: there is none.</summary>
    public string? Name => Settings?.Name;
}
