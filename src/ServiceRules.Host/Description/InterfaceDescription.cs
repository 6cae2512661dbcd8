using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;

namespace ServiceRules.Host.Description;

/// <summary>The description of the interface (OpenAPI 3.1), made of the code that answers; made once.</summary>
internal sealed class InterfaceDescription(IServiceProvider services) : IDisposable
{
    public const string Name = "v1";

    private readonly SemaphoreSlim turn = new(1, 1);
    private byte[]? text;

    public async Task<byte[]> TextAsync(CancellationToken stop)
    {
        await turn.WaitAsync(stop);
        try
        {
            return text ??= await MakeAsync(stop);
        }
        finally
        {
            turn.Release();
        }
    }

    public void Dispose() => turn.Dispose();

    private async Task<byte[]> MakeAsync(CancellationToken stop)
    {
        var document = await services
            .GetRequiredKeyedService<IOpenApiDocumentProvider>(Name)
            .GetOpenApiDocumentAsync(stop);
        // Where somebody reaches the service is no part of what it is: it is where this text came from.
        document.Servers = [new OpenApiServer { Url = "/" }];
        var written = await document.SerializeAsJsonAsync(OpenApiSpecVersion.OpenApi3_1, stop);
        var root = JsonNode.Parse(written)!.AsObject();
        PublishedParts.PutInto(root);
        DescribedText.Complete(root);
        return Encoding.UTF8.GetBytes(root.ToJsonString(DescriptionServices.Writing));
    }
}
