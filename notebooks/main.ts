const title = document.createElement("h1");
title.textContent = document.title;
document.querySelector("main")?.append(title);
