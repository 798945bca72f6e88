"""Who asks, as the desk wants to know it: from an interaction or a message, never from a cache."""

from __future__ import annotations

from dataclasses import replace

import discord

from bot.desk import Asker
from core.book import Book, Preferences
from core.library.book import LibraryBook
from core.library.settings import Settings

# Locales of Discord whose people write 0,5 (Unicode CLDR, number symbols).
COMMA_LOCALES = frozenset(
    "id da de es-ES es-419 fr hr it lt hu nl no pl pt-BR ro fi sv-SE vi tr cs el bg ru uk".split()  # noqa: SIM905
)
NO_SETTINGS = Settings()


def space_of(guild_id: int | None, user_id: int, installed_there: bool) -> str:
    """Whose shelf: the server's where the bot is a member of it, else the person's own."""
    return f"guild:{guild_id}" if guild_id is not None and installed_there else f"user:{user_id}"


def asker_of(interaction: discord.Interaction) -> Asker:
    """The asker of an interaction. In a server that did not install the bot, only the person's own data counts."""
    user = interaction.user
    space = space_of(interaction.guild_id, user.id, interaction.is_guild_integration())
    return Asker(
        user=str(user.id),
        name=user.display_name,
        spaces=(space,),
        place=str(interaction.channel_id),
        may_edit=space.startswith("user:") or interaction.permissions.manage_guild,
        roles=_roles(user),
        private_place=interaction.guild_id is None,
    )


def author_of(message: discord.Message) -> Asker:
    """The writer of a message that mentions the bot or was sent to it directly."""
    guild_id = message.guild.id if message.guild is not None else None
    space = space_of(guild_id, message.author.id, True)
    return Asker(
        user=str(message.author.id),
        name=message.author.display_name,
        spaces=(space,),
        place=str(message.channel.id),
        may_edit=space.startswith("user:"),
        roles=_roles(message.author),
        private_place=guild_id is None,
    )


def _roles(user: discord.User | discord.Member) -> tuple[str, ...]:
    """Role ids as the payload has them; the role objects need a cached server and are not asked for."""
    return tuple(str(role) for role in getattr(user, "_roles", ()))


def settings_of(book: Book) -> Settings:
    """All settings that hold for the asker of this book."""
    return book.settings if isinstance(book, LibraryBook) else NO_SETTINGS


def with_rights(asker: Asker, settings: Settings) -> Asker:
    """The asker with what the server's roles allow, besides those who manage it and may anyway."""
    if asker.may_edit or set(asker.roles).isdisjoint(settings.recorders):
        return asker
    return replace(asker, may_edit=True)


def is_private(asker: Asker, settings: Settings) -> bool:
    """Whether answers are for the asker alone: as they wish, or as the channel is set."""
    if asker.private_place:
        return False
    return settings.private is True or asker.place in settings.private_channels


def preferences_of(book: Book, locale: str) -> Preferences:
    """How answers are wanted; where nobody said which decimal sign, the one of the asker's language."""
    preferences = book.preferences
    if preferences.comma or locale not in COMMA_LOCALES or "comma" in settings_of(book).said:
        return preferences
    return replace(preferences, comma=True)
