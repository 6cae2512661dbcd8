using System.Reflection;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;
using ServiceRules.Host.Apis;

namespace ServiceRules.Host.Description;

/// <summary>The interface, described for programs at <c>/openapi/v1.json</c> and for people at <c>/api</c>.</summary>
internal static class DescriptionServices
{
    public static JsonSerializerOptions Writing { get; } =
        new()
        {
            WriteIndented = true,
            NewLine = "\n",
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        };

    public static IServiceCollection AddDescription(this IServiceCollection services) =>
        services
            .AddOpenApi(
                InterfaceDescription.Name,
                options =>
                {
                    options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
                    options.AddDocumentTransformer(
                        (document, _, _) =>
                        {
                            document.Info = new OpenApiInfo
                            {
                                Title = "ServiceRules",
                                Version = "1",
                                Description =
                                    "Submit service records of reel cutting units, get them judged, prove what stands. "
                                    + "Quantities are texts with their unit, so that no printed digit is lost.",
                            };
                            StateKey(document);
                            return Task.CompletedTask;
                        }
                    );
                    options.AddOperationTransformer(
                        (operation, context, _) =>
                        {
                            OperationText.Complete(operation, context);
                            return Task.CompletedTask;
                        }
                    );
                    options.AddSchemaTransformer((schema, context, _) => MarkAsync(schema, context));
                }
            )
            .AddSingleton<InterfaceDescription>();

    public static void MapDescription(this WebApplication app)
    {
        app.MapGet(
                "/openapi/v1.json",
                async (InterfaceDescription description, CancellationToken stop) =>
                    Conditional.Of(await description.TextAsync(stop), MediaTypes.Json)
            )
            .ExcludeFromDescription();
        app.MapGet(
                "/api",
                async (InterfaceDescription description, CancellationToken stop) =>
                    new RazorComponentResult<ApiPage>(
                        new Dictionary<string, object?>
                        {
                            [nameof(ApiPage.Operations)] = DescribedOperation.All(
                                await description.TextAsync(stop)
                            ),
                        }
                    )
            )
            .ExcludeFromDescription();
    }

    private static void StateKey(OpenApiDocument document)
    {
        const string name = "key";
        document.Components ??= new OpenApiComponents();
        document.Components.SecuritySchemes ??= new Dictionary<string, IOpenApiSecurityScheme>(
            StringComparer.Ordinal
        );
        document.Components.SecuritySchemes[name] = new OpenApiSecurityScheme
        {
            Type = SecuritySchemeType.Http,
            Scheme = "bearer",
            Description =
                "A key that an administrator made at /keys, or `servicerules accounts key` on the machine itself.",
        };
        document.Security =
        [
            new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(name, document)] = [] },
        ];
    }

    private static Task MarkAsync(OpenApiSchema schema, OpenApiSchemaTransformerContext context)
    {
        if (Published(context) is { } published)
        {
            schema.Extensions ??= new Dictionary<string, IOpenApiExtension>(StringComparer.Ordinal);
            schema.Extensions[PublishedParts.Mark] = new JsonNodeExtension(
                JsonValue.Create(published.Schema)
            );
        }

        return Task.CompletedTask;
    }

    private static PublishedAttribute? Published(OpenApiSchemaTransformerContext context) =>
        context.JsonTypeInfo.Type.GetCustomAttribute<PublishedAttribute>();
}
