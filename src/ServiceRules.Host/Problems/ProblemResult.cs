using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Keeping;
using ServiceRules.Host.Pages;
using ServiceRules.Host.Waiving;

namespace ServiceRules.Host.Problems;

/// <summary>
/// Answers with a problem document; a browser that asks for a page gets one, with the same status and the same words.
/// </summary>
internal sealed class ProblemResult(ProblemDocument document) : IResult
{
    // Whoever signs in again takes about as long.
    private const string AgainSeconds = "2";

    // Of a form that was sent without a session: longer ones are not kept in the page.
    private const int MostFields = 1024;

    private const string Records = "/records";

    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var headers = httpContext.Response.Headers;
        if (document.Status is StatusCodes.Status429TooManyRequests && headers.RetryAfter.Count == 0)
        {
            headers.RetryAfter = AgainSeconds;
        }

        headers.Append(HeaderNames.Vary, HeaderNames.Accept);
        if (!IsForPage(httpContext.Request))
        {
            await Results
                .Json(document, contentType: ProblemDocument.MediaType, statusCode: document.Status)
                .ExecuteAsync(httpContext);
            return;
        }

        headers.CacheControl = "no-store";
        var isUnknown = document.Status is StatusCodes.Status401Unauthorized;
        var page = new RazorComponentResult<ProblemPage>(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(ProblemPage.Title)] = document.Title,
                // Of keys, where nobody is known: a browser has none.
                [nameof(ProblemPage.Detail)] = isUnknown ? null : document.Detail,
                [nameof(ProblemPage.Accepted)] = document.Accepted,
                [nameof(ProblemPage.Advice)] = AdviceOf(httpContext.Request, document),
                [nameof(ProblemPage.Problems)] = (document.Problems ?? []).Select(Line).ToList(),
                [nameof(ProblemPage.SignIn)] = isUnknown ? SignInFor(httpContext.Request) : null,
                [nameof(ProblemPage.Place)] = httpContext.Request.Path.ToUriComponent(),
                [nameof(ProblemPage.Kept)] = isUnknown ? await KeptAsync(httpContext) : [],
            }
        )
        {
            StatusCode = document.Status,
        };
        await page.ExecuteAsync(httpContext);
    }

    // Programs accept anything or JSON; a browser names pages.
    private static bool IsForPage(HttpRequest request) =>
        (HttpMethods.IsGet(request.Method) || request.HasFormContentType)
        && MediaTypeHeaderValue.TryParseList(request.Headers.Accept, out var kinds)
        && kinds.Any(kind => kind.MediaType == "text/html" && kind.Quality is null or > 0);

    private static string AdviceOf(HttpRequest request, ProblemDocument document)
    {
        var status = document.Status;
        var advice = status switch
        {
            // No role opens it.
            StatusCodes.Status403Forbidden
                when document.Type == ProblemKind.OtherForm.Type
                    || document.Type == ProblemKind.OtherSite.Type =>
                "Open its page here again, as the account that you are signed in with now, and send it from there.",
            StatusCodes.Status401Unauthorized => "Your session has ended, or there was none.",
            StatusCodes.Status403Forbidden =>
                "What your account opens stands in the menu; an administrator can give it other roles.",
            StatusCodes.Status404NotFound =>
                "The address may be misspelled, or what stood there may not be yours to see.",
            StatusCodes.Status408RequestTimeout or StatusCodes.Status429TooManyRequests =>
                "Wait a few seconds, then go back and send it again, or load the page again.",
            StatusCodes.Status410Gone => "It was removed, and the log keeps that it was there.",
            StatusCodes.Status413PayloadTooLarge =>
                "Go back and choose a smaller file, or take something out.",
            StatusCodes.Status503ServiceUnavailable or StatusCodes.Status507InsufficientStorage =>
                "Try again in a moment; if it stays so, tell whoever runs the service.",
            StatusCodes.Status500InternalServerError =>
                "Look whether it was stored before you send it again, and tell whoever runs the service.",
            _ => "Go back and mend it.",
        };
        return HttpMethods.IsGet(request.Method) || status is StatusCodes.Status500InternalServerError
            ? advice
            : "Nothing was stored. " + advice;
    }

    private static string Line(ToldProblem problem) =>
        $"{problem.Pointer}: {problem.What}"
        + (problem.Accepted.Length == 0 ? "" : $"; accepted: {problem.Accepted}");

    // Where a page is, after signing in; a form of a page whose address is not known leads to the start.
    private static string SignInFor(HttpRequest request) =>
        AccountServices.SignInPlace
        + QueryString.Create(
            "then",
            HttpMethods.IsGet(request.Method)
                ? request.Path.ToUriComponent() + request.QueryString
                : PageOf(request.Path) ?? "/"
        );

    // The page that a form stands on; null for those of which nothing is kept, such as passwords.
    private static string? PageOf(PathString path) =>
        path == BenchPages.Place ? BenchPages.Place
        : path.StartsWithSegments(HoldPages.Place, StringComparison.OrdinalIgnoreCase) ? HoldPages.Place
        : path.StartsWithSegments(WaiverPages.Place, StringComparison.OrdinalIgnoreCase) ? WaiverPages.Place
        : path.StartsWithSegments(Records, out var rest) && rest.HasValue
            ? Records + "/" + rest.ToUriComponent().Split('/')[1]
        : null;

    // A form that somebody filled in for an hour must not be gone because the session was.
    private static async Task<IReadOnlyList<KeyValuePair<string, string>>> KeptAsync(HttpContext context)
    {
        if (
            PageOf(context.Request.Path) is null
            || !HttpMethods.IsPost(context.Request.Method)
            || context.Request.ContentType?.StartsWith(
                "application/x-www-form-urlencoded",
                StringComparison.OrdinalIgnoreCase
            )
                is not true
        )
        {
            return [];
        }

        try
        {
            var form = await context.Request.ReadFormAsync(context.RequestAborted);
            return form.Count > MostFields
                ? []
                :
                [
                    // With its token, which is of the account: nobody else sends it for them.
                    .. form.Select(field => KeyValuePair.Create(field.Key, field.Value.ToString())),
                ];
        }
        catch (Exception failure) when (failure is InvalidDataException or IOException)
        {
            return [];
        }
    }
}
