using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Verifying;

namespace ServiceRules.Host.Pages;

/// <summary>A report is uploaded, and told whether it is genuine.</summary>
internal static class VerifyPages
{
    private const string Place = "/verify";
    private const string Upload = "report";
    private const int NameMost = 120;

    public static void MapVerifyPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(Place, (HttpContext context) => Shown(context, [])).ExcludeFromDescription();
        routes
            .MapPost(Place, AnswerAsync)
            .TakesForm()
            // The fields around the file take a little more than the file.
            .WithMetadata(new RequestSizeLimitAttribute(ServiceLimits.ReportBytes + 16 * 1024));
    }

    private static async Task<IResult> AnswerAsync(
        HttpRequest request,
        ServedSites sites,
        VerificationDesk desk,
        OpenLedger ledger,
        CancellationToken stop
    )
    {
        var form = await request.ReadFormAsync(stop);
        if (form.Files.GetFile(Upload) is not { Length: > 0 } file)
        {
            return Shown(
                request.HttpContext,
                new(StringComparer.Ordinal)
                {
                    [nameof(VerifyPage.Problem)] =
                        "No file was chosen; accepted: one signed report, a PDF file.",
                }
            );
        }

        if (file.Length > ServiceLimits.ReportBytes)
        {
            return Shown(
                request.HttpContext,
                new(StringComparer.Ordinal)
                {
                    [nameof(VerifyPage.Problem)] = string.Create(
                        CultureInfo.InvariantCulture,
                        $"The file has {file.Length} bytes; accepted: up to {ServiceLimits.ReportBytes}."
                    ),
                }
            );
        }

        using var held = new MemoryStream();
        await file.CopyToAsync(held, stop);
        var caller = Caller.Known(request.HttpContext.User);
        var answer = await desk.LookAsync(held.ToArray(), caller, stop);
        return Shown(
            request.HttpContext,
            new(StringComparer.Ordinal)
            {
                [nameof(VerifyPage.FileName)] = Shortened.To(file.FileName, NameMost),
                [nameof(VerifyPage.Told)] = answer,
                [nameof(VerifyPage.Successor)] = ShownSuccessor.Of(ledger, sites, answer.Here, caller),
            }
        );
    }

    private static RazorComponentResult<VerifyPage> Shown(
        HttpContext context,
        Dictionary<string, object?> told
    )
    {
        told[nameof(VerifyPage.Token)] = FormToken.Of(context);
        return new(told);
    }
}
