using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Accounts;

/// <summary>That a route takes a form of one of the pages here, and no other.</summary>
internal sealed class FormTokenMetadata;

/// <summary>
/// Forms carry a token that only a page of this service can have given. A program with a key sends no cookie that a browser
/// could be made to send, and needs none.
/// </summary>
internal static class FormToken
{
    /// <summary>The name of the field.</summary>
    public const string Field = "__RequestVerificationToken";

    public static RouteHandlerBuilder TakesForm(this RouteHandlerBuilder route) =>
        route
            .WithMetadata(new FormTokenMetadata())
            .AddEndpointFilter(
                async (context, next) =>
                {
                    var http = context.HttpContext;
                    if (!http.Request.HasFormContentType)
                    {
                        return Complaint.Of(
                            ProblemKind.MediaType,
                            "a form of a page is taken here",
                            "application/x-www-form-urlencoded, or multipart/form-data where a file goes with it"
                        );
                    }

                    if (!await IsReadableAsync(http))
                    {
                        return Complaint.Of(
                            ProblemKind.BadRequest,
                            "the form breaks off, or is none",
                            "a whole form"
                        );
                    }

                    return
                        Caller.Of(http.User) is { IsKey: true }
                        || await http
                            .RequestServices.GetRequiredService<IAntiforgery>()
                            .IsRequestValidAsync(http)
                        ? await next(context)
                        : Complaint.Of(
                            ProblemKind.OtherForm,
                            "it was shown to another account or in another browser, or comes from elsewhere"
                        );
                }
            )
            .ExcludeFromDescription();

    private static async Task<bool> IsReadableAsync(HttpContext http)
    {
        try
        {
            await http.Request.ReadFormAsync(http.RequestAborted);
            return true;
        }
        catch (Exception failure)
            when (failure is InvalidDataException or IOException and not BadHttpRequestException)
        {
            return false;
        }
    }

    /// <summary>The token for the forms of a page that is answered with.</summary>
    public static string Of(HttpContext context) =>
        context.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context).RequestToken!;
}
