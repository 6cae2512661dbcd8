using System.Text.Json;
using System.Text.Json.Serialization;

namespace ServiceRules.Client;

/// <summary>What the generator leaves to be said.</summary>
public partial class ServiceClient
{
    // The service refuses nulls: what is not said is left out.
    static partial void UpdateJsonSerializerSettings(JsonSerializerOptions settings) =>
        settings.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
}
