using Microsoft.AspNetCore.Http;

namespace ServiceRules.Host.Accounts;

/// <summary>Leads a browser on after a form was taken, so that going back does not send it again (RFC 9110, section 15.4.4).</summary>
internal static class SeeOther
{
    public static IResult At(HttpContext context, string place)
    {
        context.Response.Headers.Location = place;
        return Results.StatusCode(StatusCodes.Status303SeeOther);
    }

    /// <summary>A place of this service, spelled as in an address, that a page asked to be led to; else its start.</summary>
    public static string Local(string? asked) =>
        asked is ['/', not ('/' or '\\'), ..] && asked.All(IsOfAddress) ? asked : "/";

    // Others could not stand in the header that leads there.
    private static bool IsOfAddress(char sign) => sign is > ' ' and <= '~';
}
