using System.Text.Json.Nodes;
using NJsonSchema.CodeGeneration.CSharp;
using NSwag;
using NSwag.CodeGeneration.CSharp;

namespace ServiceRules.Host.Tests.Clients;

/// <summary>The client that the text of the interface comes to.</summary>
internal static class WrittenClient
{
    public static async Task<string> OfAsync(JsonObject text)
    {
        var document = await OpenApiDocument.FromJsonAsync(ClientText.Of(text).ToJsonString());
        var settings = new CSharpClientGeneratorSettings
        {
            ClassName = "ServiceClient",
            UseBaseUrl = false,
            InjectHttpClient = true,
            DisposeHttpClient = false,
            GenerateOptionalParameters = true,
            ExceptionClass = "ServiceException",
            CSharpGeneratorSettings =
            {
                Namespace = "ServiceRules.Client",
                JsonLibrary = CSharpJsonLibrary.SystemTextJson,
                GenerateNullableReferenceTypes = true,
                GenerateOptionalPropertiesAsNullable = true,
                GenerateDataAnnotations = false,
                DateType = "System.DateOnly",
                ArrayType = "System.Collections.Generic.IList",
                ArrayInstanceType = "System.Collections.Generic.List",
            },
        };
        return new CSharpClientGenerator(document, settings)
            .GenerateFile()
            .Replace("\r\n", "\n", StringComparison.Ordinal);
    }
}
