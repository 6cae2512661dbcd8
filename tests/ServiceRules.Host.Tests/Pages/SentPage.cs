using System.Net;

namespace ServiceRules.Host.Tests.Pages;

/// <summary>What a page or a form of one was answered with.</summary>
/// <param name="Status">The status.</param>
/// <param name="Place">Where it leads on to.</param>
/// <param name="Html">The page, with its entities read.</param>
internal sealed record SentPage(int Status, string Place, string Html)
{
    public static async Task<SentPage> SendAsync(
        HttpClient client,
        string path,
        params (string Name, string Value)[] fields
    )
    {
        using var form = new FormUrlEncodedContent(
            fields.Select(field => KeyValuePair.Create(field.Name, field.Value))
        );
        using var answer = await client.PostAsync(new Uri(path, UriKind.Relative), form);
        return await OfAsync(answer);
    }

    public static async Task<SentPage> GetAsync(HttpClient client, string path)
    {
        using var answer = await client.GetAsync(new Uri(path.TrimStart('/'), UriKind.Relative));
        return await OfAsync(answer);
    }

    public static async Task<SentPage> OfAsync(HttpResponseMessage answer) =>
        new(
            (int)answer.StatusCode,
            answer.Headers.Location?.ToString() ?? "",
            WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync())
        );
}
