using System.Globalization;
using System.Reflection;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>
/// What is sent with a request and not looked at would be taken for heard: a key or a condition at an address that takes none, and a
/// word of the query that nothing there reads or that cannot be read.
/// </summary>
internal static class AskedExactly
{
    private static readonly string[] Conditions =
    [
        HeaderNames.IfMatch,
        HeaderNames.IfNoneMatch,
        HeaderNames.IfModifiedSince,
        HeaderNames.IfUnmodifiedSince,
    ];

    public static void UseAskedExactly(this IApplicationBuilder app) =>
        app.Use(
            (context, next) =>
                context.GetEndpoint() is RouteEndpoint route
                && context.Request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase)
                && Fault(context.Request, route) is { } fault
                    ? fault.ExecuteAsync(context)
                    : next(context)
        );

    private static IResult? Fault(HttpRequest request, RouteEndpoint route)
    {
        var asked = Asked(route);
        return (HttpMethods.IsPost(request.Method) ? OfPost(request, route, asked) : null)
            ?? asked
                .Select(one => Unreadable(one, request.Query[one.Name!]))
                .FirstOrDefault(fault => fault is not null);
    }

    private static IResult? OfPost(HttpRequest request, RouteEndpoint route, List<ParameterInfo> asked)
    {
        if (
            request.Headers.ContainsKey(IdempotencyKey.Header)
            && route.Metadata.GetMetadata<TakesKeyMetadata>() is null
        )
        {
            return Complaint.Of(
                ProblemKind.BadRequest,
                $"{IdempotencyKey.Header}: no answers are kept at this address, so that the same again would be done again",
                "no such header here; /api tells where one is taken"
            );
        }

        var conditioned = Conditions.FirstOrDefault(name =>
            request.Headers.ContainsKey(name)
            && !(
                name == HeaderNames.IfMatch && route.Metadata.GetMetadata<TakesIfMatchMetadata>() is not null
            )
        );
        if (conditioned is not null)
        {
            return Complaint.Of(
                ProblemKind.BadRequest,
                $"{conditioned}: nothing is held against it at this address",
                "no such header here; If-Match is taken where a record is amended"
            );
        }

        var names = asked.Select(one => one.Name!).ToList();
        if (
            request.Query.Keys.FirstOrDefault(name =>
                !names.Contains(name, StringComparer.OrdinalIgnoreCase)
            ) is
            { } odd
        )
        {
            return Wrong(
                odd,
                "there is nothing of that name to ask for",
                names.Count == 0 ? "nothing behind a question mark" : string.Join(", ", names)
            );
        }

        var lists = asked.Where(one => one.ParameterType.IsArray).Select(one => one.Name!).ToList();
        return
            request.Query.FirstOrDefault(one =>
                one.Value.Count > 1 && !lists.Contains(one.Key, StringComparer.OrdinalIgnoreCase)
            )
                is { Key: { } twice }
            ? Wrong(twice, "it stands twice", "once")
            : null;
    }

    // What the handler takes out of the query by itself.
    private static List<ParameterInfo> Asked(RouteEndpoint route) =>
        route.Metadata.GetMetadata<MethodInfo>() is { } handler
            ?
            [
                .. handler
                    .GetParameters()
                    .Where(one =>
                        IsWord(one.ParameterType) && route.RoutePattern.GetParameter(one.Name!) is null
                    ),
            ]
            : [];

    private static bool IsWord(Type type) =>
        type == typeof(string) || type == typeof(string[]) || Plain(type).IsPrimitive;

    private static Type Plain(Type type) => Nullable.GetUnderlyingType(type) ?? type;

    private static IResult? Unreadable(ParameterInfo asked, StringValues given)
    {
        var type = Plain(asked.ParameterType);
        if (!type.IsPrimitive)
        {
            return null;
        }

        var accepted = type == typeof(bool) ? "true or false" : "a whole number";
        if (given.Count == 0)
        {
            return asked.HasDefaultValue || Nullable.GetUnderlyingType(asked.ParameterType) is not null
                ? null
                : Wrong(asked.Name!, "it is needed", accepted);
        }

        return given is [{ } text] && IsOf(type, text)
            ? null
            : Wrong(asked.Name!, $"found `{Shortened.To(given.ToString(), 64)}`", accepted);
    }

    private static bool IsOf(Type type, string text) =>
        type == typeof(bool) ? bool.TryParse(text, out _)
        : type == typeof(int) ? int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out _)
        : long.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out _);

    private static IResult Wrong(string name, string what, string accepted) =>
        Complaint.Of(ProblemKind.BadRequest, $"{Shortened.To(name, 64)}: {what}", accepted);
}
