namespace ServiceRules.Host.Apis;

/// <summary>Names the published schema of a document, for the description of the interface.</summary>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class PublishedAttribute(string schema) : Attribute
{
    public string Schema { get; } = schema;
}
